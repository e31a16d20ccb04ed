package network

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"

	"bootfloor/internal/air"
)

func lineMatrix(l *Line, w float64) [4]complex128 {
	var z [4]complex128
	l.Impedance(0, w, z[:])
	return z
}

// A straight piece is the duct of a square section.
func TestLineOfOnePieceIsADuct(t *testing.T) {
	a := air.MustStandard()
	for _, length := range []float64{0.02, 0.6, 4} {
		l := NewLine(a, []Section{{Length: length, Start: 0.04, End: 0.04}}, nil)
		d := Duct{Air: a, Length: length, Area: 0.04, Perimeter: 0.8}
		for hz := 5.0; hz < 700; hz *= 1.4 {
			got := lineMatrix(l, 2*math.Pi*hz)
			var want [4]complex128
			d.Impedance(0, 2*math.Pi*hz, want[:])
			for i := range got {
				if e := cmplx.Abs(got[i]-want[i]) / cmplx.Abs(want[0]); e > 1e-10 {
					t.Errorf("%g m, %.3g Hz, entry %d: off by %.2g", length, hz, i, e)
				}
			}
		}
	}
}

// A cone without losses closed at its wide end, from the spherical wave
// p = (k x2 cos k(x2-x) - sin k(x2-x))/x, whose slope vanishes at x2
// (rederived; Fletcher and Rossing give the same two-port), and the other way
// round.
func TestConeClosedForm(t *testing.T) {
	a := lossless()
	const x1, x2, solid = 0.4, 1.9, 0.06 // distances from the apex, m; steradians
	s1, s2 := solid*x1*x1, solid*x2*x2
	wide := NewLine(a, []Section{{Length: x2 - x1, Start: s1, End: s2}}, nil)
	narrow := NewLine(a, []Section{{Length: x2 - x1, Start: s2, End: s1}}, nil)
	// The input reactance of the cone closed at its far end, over rho c/S.
	closed := func(k, from, to float64) float64 {
		d, sign := math.Abs(to-from), 1.0
		if to < from {
			sign = -1
		}
		xp := -sign*math.Sin(k*d) + k*to*math.Cos(k*d)         // x times p at the near end
		slope := k * (math.Cos(k*d) + sign*k*to*math.Sin(k*d)) // and its derivative by x
		p := xp / from
		return -k * p / ((slope - p) / from * sign)
	}
	for hz := 11.0; hz < 500; hz *= 1.23 {
		w := 2 * math.Pi * hz
		k := w / a.SpeedOfSound
		z := lineMatrix(wide, w)
		near(t, "into the narrow end", imag(z[0])/(a.Impedance()/s1*closed(k, x1, x2)), 1, 1e-9)
		near(t, "into the wide end", imag(z[3])/(a.Impedance()/s2*closed(k, x2, x1)), 1, 1e-9)
		y := lineMatrix(narrow, w)
		if cmplx.Abs(y[0]-z[3]) > 1e-10*cmplx.Abs(z[3]) || cmplx.Abs(y[3]-z[0]) > 1e-10*cmplx.Abs(z[0]) ||
			cmplx.Abs(y[1]-z[1]) > 1e-10*cmplx.Abs(z[1]) {
			t.Errorf("%.3g Hz: turned round the cone is another one", hz)
		}
	}
	// At low frequency it is its volume.
	w := 2 * math.Pi * 0.01
	volume := (x2 - x1) / 3 * (s1 + s2 + math.Sqrt(s1*s2))
	z := lineMatrix(wide, w)
	near(t, "volume", -1/(w*imag(z[0]))*a.BulkModulus(), volume, 1e-6*volume)
}

// Cutting a cone anywhere changes nothing without losses, and a stub behind
// the cone is the same line seen from where it is fed.
func TestLineCutAnywhere(t *testing.T) {
	a := lossless()
	whole := Section{Length: 1.6, Start: 0.02, End: 0.09, Fibre: Fibre{800}}
	cut := func(at float64) (Section, Section) {
		root := math.Sqrt(whole.Start) + (math.Sqrt(whole.End)-math.Sqrt(whole.Start))*at/whole.Length
		p, q := whole, whole
		p.Length, p.End = at, root*root
		q.Length, q.Start = whole.Length-at, root*root
		return p, q
	}
	for hz := 9.0; hz < 500; hz *= 1.37 {
		w := 2 * math.Pi * hz
		want := lineMatrix(NewLine(a, []Section{whole}, nil), w)
		for _, at := range []float64{0.1, 0.8, 1.55} {
			p, q := cut(at)
			got := lineMatrix(NewLine(a, []Section{p, q}, nil), w)
			for i := range got {
				if e := cmplx.Abs(got[i]-want[i]) / cmplx.Abs(want[0]); e > 1e-8 {
					t.Errorf("%.3g Hz cut at %g: entry %d off by %.2g", hz, at, i, e)
				}
			}
			// Fed at the cut, with the rest behind: the mouth, closed by
			// nothing, sees the whole line from its far end.
			p.Start, p.End = p.End, p.Start
			tapped := lineMatrix(NewLine(a, []Section{q}, []Section{p}), w)
			if e := cmplx.Abs(tapped[3]-want[3]) / cmplx.Abs(want[3]); e > 1e-8 {
				t.Errorf("%.3g Hz tapped at %g: off by %.2g", hz, at, e)
			}
		}
	}
}

// Allard and Champoux print, for air of 1.2 kg/m3 at 101 320 Pa,
//
//	rho = 1.2 + (-0.0364 X^-2 - j 0.1144 X^-1)^(1/2)
//	K = 101320 (29.64 j + (2.82 X^-2 + 24.9 j X^-1)^(1/2))/(21.17 j + (...)^(1/2))
//
// with X = rho0 f/sigma (recalled). The model must return them to the rounding
// of their coefficients.
func TestFibreAgainstPrintedModel(t *testing.T) {
	a := air.Properties{Density: 1.2, Gamma: 1.4, Prandtl: 0.702, SpeedOfSound: math.Sqrt(1.4 * 101320 / 1.2)}
	for _, sigma := range []float64{300, 2000, 3e4} {
		for hz := 10.0; hz < 3000; hz *= 1.7 {
			x := complex(1.2*hz/sigma, 0)
			density := 1.2 + cmplx.Sqrt(-0.0364/(x*x)-0.1144i/x)
			if imag(density) > 0 { // the root whose imaginary part is friction
				density = 1.2 - cmplx.Sqrt(-0.0364/(x*x)-0.1144i/x)
			}
			root := cmplx.Sqrt(2.82/(x*x) + 24.9i/x)
			modulus := 101320 * (29.64i + root) / (21.17i + root)
			d, c := Fibre{sigma}.In(a, 2*math.Pi*hz)
			if e := cmplx.Abs(1.2*d/density - 1); e > 0.003 {
				t.Errorf("sigma %g, %.3g Hz: density %v, printed %v", sigma, hz, 1.2*d, density)
			}
			if e := cmplx.Abs(complex(a.BulkModulus(), 0)/c/modulus - 1); e > 0.003 {
				t.Errorf("sigma %g, %.3g Hz: modulus %v, printed %v", sigma, hz, complex(a.BulkModulus(), 0)/c, modulus)
			}
		}
	}
}

// Both limits: a flow resistance and isothermal air at low frequency, free air
// at high; and no fibre is no change.
func TestFibreLimits(t *testing.T) {
	a := air.MustStandard()
	const w = 1.0
	d, c := Fibre{5000}.In(a, w)
	near(t, "resistance", -imag(d)*w*a.Density, 5000, 5)
	near(t, "isothermal", real(c), a.Gamma, 1e-3)
	d, c = Fibre{5}.In(a, 1e6)
	near(t, "free density", cmplx.Abs(d-1), 0, 0.01)
	near(t, "free modulus", cmplx.Abs(c-1), 0, 0.01)
	if d, c := (Fibre{}).In(a, w); d != 1 || c != 1 {
		t.Error("no fibre changes the air")
	}
	if Polyester(0) != (Fibre{}) || Polyester(-1) != (Fibre{}) {
		t.Error("no wool resists")
	}
	near(t, "30 kg/m3", Polyester(30).FlowResistivity, 25.989*math.Exp(1.404*math.Log(30)), 1e-6)
}

// A line of the longest and densest pieces stays finite.
func TestLongStuffedLineIsFinite(t *testing.T) {
	var toward, behind []Section
	for range 12 {
		toward = append(toward, Section{Length: 10, Start: 1e-4, End: 2, Fibre: Polyester(60)})
		behind = append(behind, Section{Length: 10, Start: 2, End: 1e-4, Fibre: Polyester(60)})
	}
	l := NewLine(air.MustStandard(), toward, behind)
	for hz := 1.0; hz < 1e4; hz *= 2 {
		for i, v := range lineMatrix(l, 2*math.Pi*hz) {
			if cmplx.IsNaN(v) || cmplx.IsInf(v) {
				t.Fatalf("%g Hz: entry %d is %v", hz, i, v)
			}
		}
	}
}

// The series stand for cosh and sinh(g)/g everywhere that they are used: within
// a few units of the last digit of the standard library's.
func TestHyperbolicSeries(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 52))
	for range 20000 {
		x := cmplx.Rect(9*math.Pow(10, -5*r.Float64()), 2*math.Pi*r.Float64())
		g := cmplx.Sqrt(x)
		f := hyperbolic(x)
		if e := cmplx.Abs(f.cosh - f.scale*cmplx.Cosh(g)); e > 1e-15*(1+cmplx.Abs(f.cosh)) {
			t.Fatalf("cosh of the root of %v is %g off", x, e)
		}
		if e := cmplx.Abs(f.sinh - f.scale*cmplx.Sinh(g)/g); e > 1e-15*(1+cmplx.Abs(f.sinh)) {
			t.Fatalf("sinh of the root of %v is %g off", x, e)
		}
	}
}
