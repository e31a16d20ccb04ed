package alignment

import (
	"fmt"
	"math"
)

// VentedSystem is a driver in a vented box as Small (J. Audio Eng. Soc. 21
// (1973) 363) writes it; all losses of the box stand in QL.
type VentedSystem struct {
	Qts   float64
	H     float64 // fb/fs
	Alpha float64 // Vas/Vb
	QL    float64 // leak loss at fb; +Inf is none
}

// Response returns the system's high-pass, in units of sqrt(fs fb).
func (v VentedSystem) Response() Fourth {
	u := math.Sqrt(v.H)
	return Fourth{
		A1: 1/(u*v.Qts) + u/v.QL,
		A2: 1/(v.QL*v.Qts) + (v.Alpha+1+v.H*v.H)/v.H,
		A3: u/v.Qts + 1/(u*v.QL),
	}
}

// At returns the complex response at f/fs.
func (v VentedSystem) At(x float64) complex128 { return v.Response().At(x / math.Sqrt(v.H)) }

// Travel returns the cone travel at f/fs relative to that at DC.
func (v VentedSystem) Travel(x float64) complex128 {
	w := x / math.Sqrt(v.H)
	y := x / v.H // f/fb
	g := v.Response().At(w)
	w4 := complex(w*w*w*w, 0)
	return complex(1-y*y, y/v.QL) * g / w4
}

// Realise returns the system with the given response and leak loss: the
// inverse of Response. Eliminating Qts leaves a quartic in u = sqrt(h),
// u^4 - A1 QL u^3 + A3 QL u - 1 = 0 (Small 1973).
func Realise(f Fourth, ql float64) VentedSystem {
	u := math.Sqrt(f.A3 / f.A1)
	if !math.IsInf(ql, 1) {
		for range 50 {
			value := u*u*u*u/ql - f.A1*u*u*u + f.A3*u - 1/ql
			slope := 4*u*u*u/ql - 3*f.A1*u*u + f.A3
			step := value / slope
			u -= step
			if math.Abs(step) < 1e-15*u {
				break
			}
		}
	}
	v := VentedSystem{H: u * u, QL: ql}
	v.Qts = 1 / (u * (f.A1 - u/ql))
	v.Alpha = v.H*(f.A2-1/(ql*v.Qts)) - 1 - v.H*v.H
	return v
}

// VentedBox is a vented box and what it does.
type VentedBox struct {
	Name     Name
	VolumeM3 float64
	FbHz     float64 // tuning
	F3Hz     float64
	PeakDB   float64 // rise above the level far up
	System   VentedSystem
	Response Fourth  // in units of sqrt(fs fb)
	K        float64 // of the Chebyshev families, else 0
}

// Vented returns the box of a named alignment for a driver. ql is the leak
// loss at the tuning; zero or +Inf is a box without losses, 7 is a fair
// start for moderate boxes (Small 1973, part III). The error says which Qts
// the alignment would need.
func Vented(d Driver, name Name, ql float64) (VentedBox, error) {
	if err := d.check(); err != nil {
		return VentedBox{}, err
	}
	ql, err := checkLoss(ql)
	if err != nil {
		return VentedBox{}, err
	}
	fam, ok := families[name]
	if !ok {
		return VentedBox{}, fmt.Errorf("there is no vented alignment called %q", name)
	}
	lo, hi := fam.qtsRange(ql)
	if slack := fam.slack * d.Qts; !(d.Qts >= lo-slack && d.Qts <= hi+slack) {
		return VentedBox{}, fmt.Errorf("%s %s; this driver's is %.3g", name, needs(lo, hi), d.Qts)
	}
	f, k := fam.fit(d.Qts, ql)
	v := Realise(f, ql)
	if !(v.Alpha > 0) {
		return VentedBox{}, fmt.Errorf("%s has no box for a Qts of %.3g at QL %.3g; choose a lower Qts or a tighter box", name, d.Qts, ql)
	}
	return VentedBox{
		Name: name, System: v, Response: f, K: k,
		VolumeM3: d.VasM3 / v.Alpha,
		FbHz:     v.H * d.FsHz,
		F3Hz:     f.Frequency(decibels(0.5)) * math.Sqrt(v.H) * d.FsHz,
		PeakDB:   f.PeakDB(),
	}, nil
}

// VentedAll returns every named alignment that exists for a driver, in the
// order of Names.
func VentedAll(d Driver, ql float64) ([]VentedBox, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	if _, err := checkLoss(ql); err != nil {
		return nil, err
	}
	var out []VentedBox
	for _, n := range Names() {
		if b, err := Vented(d, n, ql); err == nil {
			out = append(out, b)
		}
	}
	return out, nil
}

func checkLoss(ql float64) (float64, error) {
	if ql == 0 {
		return math.Inf(1), nil
	}
	if !(ql >= 2) {
		return 0, fmt.Errorf("QL is %g; vented boxes reach 3 to 20, and 0 stands for no loss", ql)
	}
	return ql, nil
}

func needs(lo, hi float64) string {
	switch {
	case lo == hi:
		return fmt.Sprintf("needs a Qts of %.3f", lo)
	case lo == 0:
		return fmt.Sprintf("needs a Qts of at most %.3f", hi)
	}
	return fmt.Sprintf("needs a Qts from %.3f to %.3f", lo, hi)
}
