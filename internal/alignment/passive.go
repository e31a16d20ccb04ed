package alignment

import (
	"fmt"
	"math"
)

// PassiveSystem is a driver in a box with a passive radiator, without losses
// (Small, J. Audio Eng. Soc. 22 (1974) 592 and 683).
type PassiveSystem struct {
	Qts   float64
	Alpha float64 // Vas/Vb
	Delta float64 // compliance of the passive radiator over that of the box
	Y     float64 // free resonance of the passive radiator over fs
}

// H returns fb/fs: the tuning of the box.
func (p PassiveSystem) H() float64 { return p.Y * math.Sqrt(1+p.Delta) }

// At returns the complex response at f/fs. It has a notch at the passive
// radiator's own resonance and the response of a vented box in the limit of
// large Delta.
func (p PassiveSystem) At(x float64) complex128 {
	w2, h := x*x, p.H()
	num := complex(-w2*(p.Y*p.Y-w2), 0)
	den := complex(1-w2, x/p.Qts)*complex(h*h-w2, 0) + complex(p.Alpha*(p.Y*p.Y-w2), 0)
	return num / den
}

// PassiveBox is a box with a passive radiator and what it does.
type PassiveBox struct {
	Name     Name
	VolumeM3 float64
	FbHz     float64 // tuning of the box
	FpHz     float64 // free resonance of the passive radiator with its added mass: the notch
	F3Hz     float64
	PeakDB   float64
	System   PassiveSystem
}

// Passive returns the box and the passive radiator's resonance that give the
// system the poles of a named vented alignment without losses: QB3, SC4 or C4,
// whichever the driver admits. vapM3 is the air of the same compliance as the
// passive radiator (all of them together), m3. The notch at FpHz stays, so the
// level below the corner falls faster than the vented alignment's; F3Hz and
// PeakDB are those of the whole response. The fourth-order match is exact in
// the denominator
//
//	s^4 + s^3/Q + (1 + h^2 + alpha) s^2 + (h^2/Q) s + h^2 + alpha y^2.
func Passive(d Driver, name Name, vapM3 float64) (PassiveBox, error) {
	if err := d.check(); err != nil {
		return PassiveBox{}, err
	}
	if !(vapM3 > 0) {
		return PassiveBox{}, fmt.Errorf("the passive radiator's equivalent volume is %g m3; it must be positive", vapM3)
	}
	var member func(float64) Fourth
	var lo, hi float64
	switch name {
	case QB3:
		member, lo, hi = QuasiButterworth3, 2+math.Sqrt2, 2+math.Sqrt2+8/d.Qts
	case SC4:
		member, lo, hi = func(inv float64) Fourth { return Chebyshev4(1 / inv) }, 1e-6, 1
	case C4:
		member, lo, hi = Chebyshev4, smallestK(), 1
	default:
		return PassiveBox{}, fmt.Errorf("a passive radiator follows QB3, SC4 or C4, not %q", name)
	}
	ratio := vapM3 / d.VasM3
	miss := func(t float64) float64 {
		p, fourth := passiveFor(member(t), d.Qts, ratio)
		return p.Y*p.Y - fourth
	}
	// The family's parameter must make two expressions for y^2 agree; look for
	// the change of sign, for at its far end the family may leave the plane.
	const steps = 400
	for i := range steps {
		a := lo + (hi-lo)*float64(i)/steps
		b := lo + (hi-lo)*float64(i+1)/steps
		ma, mb := miss(a), miss(b)
		if math.IsNaN(ma) || math.IsNaN(mb) || (ma > 0) == (mb > 0) {
			continue
		}
		p, _ := passiveFor(member(bisect(a, b, miss)), d.Qts, ratio)
		if !(p.Alpha > 0 && p.Y > 0) {
			continue
		}
		return p.box(d, name), nil
	}
	return PassiveBox{}, fmt.Errorf("%s has no passive-radiator box for a Qts of %.3g and an equivalent volume %.3g times Vas; try another alignment or a softer passive radiator",
		name, d.Qts, ratio)
}

// passiveFor matches the poles of f for a driver's Qts, and returns beside the
// system, whose Y follows from its tuning and compliance, the y^2 that the
// constant term asks for.
func passiveFor(f Fourth, qts, ratio float64) (PassiveSystem, float64) {
	w0 := 1 / (qts * f.A1)
	h2 := f.A3 * w0 * w0 / f.A1
	alpha := f.A2*w0*w0 - 1 - h2
	if !(alpha > 0) {
		return PassiveSystem{Y: math.NaN()}, 0
	}
	p := PassiveSystem{Qts: qts, Alpha: alpha, Delta: ratio * alpha}
	p.Y = math.Sqrt(h2 / (1 + p.Delta))
	return p, (w0*w0*w0*w0 - h2) / alpha
}

func (p PassiveSystem) box(d Driver, name Name) PassiveBox {
	power := func(x float64) float64 {
		z := p.At(x)
		return real(z)*real(z) + imag(z)*imag(z)
	}
	// Walk down from far above everything to the first half-power point.
	best, x := 1.0, 50.0
	for ; power(x) >= 0.5; x *= 0.995 {
		best = math.Max(best, power(x))
	}
	f3 := bisect(x, x/0.995, func(x float64) float64 { return power(x) - 0.5 })
	return PassiveBox{
		Name: name, System: p,
		VolumeM3: d.VasM3 / p.Alpha, FbHz: p.H() * d.FsHz, FpHz: p.Y * d.FsHz,
		F3Hz: f3 * d.FsHz, PeakDB: decibels(best),
	}
}

// PassiveAll returns the boxes of QB3, SC4 and C4 that exist for a driver and
// passive radiator. Against the vented box, the notch moves the border between
// QB3 or SC4 and C4 to a lower Qts.
func PassiveAll(d Driver, vapM3 float64) []PassiveBox {
	var out []PassiveBox
	for _, n := range []Name{QB3, SC4, C4} {
		if b, err := Passive(d, n, vapM3); err == nil {
			out = append(out, b)
		}
	}
	return out
}
