package network

import (
	"math"
	"math/cmplx"
	"testing"

	"bootfloor/internal/air"
)

// lossless is air without viscosity or conduction of heat.
func lossless() air.Properties {
	a := air.MustStandard()
	a.Viscosity = 0
	return a
}

// A lossless tube from the wave equation: with k = w/c and Zc = rho c/S its
// open-circuit impedances are -j Zc cot kL and -j Zc/sin kL, so that a closed
// end shows -j Zc cot kL and an ideally open one j Zc tan kL (Kinsler and
// Frey, Fundamentals of Acoustics).
func TestDuctClosedForm(t *testing.T) {
	a := lossless()
	for _, l := range []float64{0.01, 0.1, 0.37, 1.4, 3.2, 9} {
		d := Duct{Air: a, Length: l, Area: 0.01, Perimeter: 0.36}
		zc := a.Impedance() / d.Area
		for hz := 7.3; hz < 600; hz *= 1.21 {
			w := 2 * math.Pi * hz
			kl := w / a.SpeedOfSound * l
			var z [4]complex128
			d.Impedance(0, w, z[:])
			closed := complex(0, -zc/math.Tan(kl))
			open := complex(0, zc*math.Tan(kl))
			got := z[0] - z[1]*z[2]/z[3]
			tol := 1e-9 * (zc + cmplx.Abs(closed))
			if cmplx.Abs(z[0]-closed) > tol {
				t.Fatalf("L %g, %.4g Hz: closed end %v, want %v", l, hz, z[0], closed)
			}
			if e := cmplx.Abs(got - open); e > 1e-8*(zc+cmplx.Abs(open)*(1+cmplx.Abs(open)/zc)) {
				t.Fatalf("L %g, %.4g Hz: open end %v, want %v", l, hz, got, open)
			}
			if e := cmplx.Abs(z[1] - complex(0, -zc/math.Sin(kl))); e > 1e-9*(zc+cmplx.Abs(z[1])) {
				t.Fatalf("L %g, %.4g Hz: transfer %v", l, hz, z[1])
			}
			if z[1] != z[2] || z[0] != z[3] {
				t.Fatal("the duct is not symmetric")
			}
		}
	}
}

// With losses the same forms hold for a complex propagation constant.
func TestDuctWithLosses(t *testing.T) {
	for _, sigma := range []float64{0, 300, 2e4} {
		for _, l := range []float64{0.02, 0.3, 2, 12} {
			d := Duct{Air: air.MustStandard(), Length: l, Area: 0.004, Perimeter: 0.25, FlowResistivity: sigma, Isothermal: 0.3}
			for hz := 5.0; hz < 700; hz *= 1.3 {
				w := 2 * math.Pi * hz
				zs, ys := d.PerMetre(w)
				g := cmplx.Sqrt(zs * ys)
				zc := zs / g
				gl := g * complex(l, 0)
				var z [4]complex128
				d.Impedance(0, w, z[:])
				want0, want1 := zc/cmplx.Tanh(gl), zc/cmplx.Sinh(gl)
				if e := cmplx.Abs(z[0]-want0) / cmplx.Abs(want0); e > 1e-9 {
					t.Errorf("sigma %g L %g %.3g Hz: off by %.2g", sigma, l, hz, e)
				}
				if e := cmplx.Abs(z[1]-want1) / cmplx.Abs(want0); e > 1e-9 {
					t.Errorf("sigma %g L %g %.3g Hz: transfer off by %.2g", sigma, l, hz, e)
				}
			}
		}
	}
}

// A duct short against the wave, open at its far end, is the inertance
// rho L/S; the corrections are those of the tangent, (kL)^2/3 and on.
func TestShortDuctIsAnInertance(t *testing.T) {
	a := lossless()
	for _, l := range []float64{0.003, 0.02, 0.1} {
		d := Duct{Air: a, Length: l, Area: 0.006, Perimeter: 0.3}
		w := 2 * math.Pi * 25.0
		var z [4]complex128
		d.Impedance(0, w, z[:])
		got := imag(z[0] - z[1]*z[2]/z[3])
		kl := w * l / a.SpeedOfSound
		want := w * a.Density * l / d.Area * (1 + kl*kl/3 + 2*kl*kl*kl*kl/15)
		near(t, "inertance", got/want, 1, 1e-8)
	}
}

// The friction of a short wide tube is the wide-tube law of Kirchhoff and
// Helmholtz, R = w rho L dv/(S a) and an equal reactance, dv being the
// thickness of the viscous layer, 0.4 mm at 30 Hz.
func TestWideTubeFriction(t *testing.T) {
	a := air.MustStandard()
	const w = 2 * math.Pi * 30
	near(t, "layer", math.Sqrt(2*a.Viscosity/(a.Density*w)), 0.4e-3, 0.01e-3)
	d := Duct{Air: a, Length: 0.05, Area: math.Pi * 0.05 * 0.05, Perimeter: 2 * math.Pi * 0.05}
	var z [4]complex128
	d.Impedance(0, w, z[:])
	got := real(z[0] - z[1]*z[2]/z[3])
	dv := math.Sqrt(2 * a.Viscosity / (a.Density * w))
	near(t, "friction", got/(w*a.Density*d.Length/d.Area*dv/0.05), 1, 1e-3)
}

// The attenuation of a wide tube: alpha = (1 + (gamma-1)/sqrt Pr)
// sqrt(w mu/(2 rho))/(a c) nepers per metre (Kirchhoff 1868, as in Pierce,
// Acoustics, 10-5; from memory), which for air is 3 10^-5 sqrt(f)/a (Fletcher
// and Rossing, The Physics of Musical Instruments, chapter 8; from memory).
func TestKirchhoffAttenuation(t *testing.T) {
	a := air.MustStandard()
	d := Duct{Air: a, Length: 1, Area: math.Pi * 0.05 * 0.05, Perimeter: 2 * math.Pi * 0.05}
	const w = 2 * math.Pi * 100
	zs, ys := d.PerMetre(w)
	want := (1 + (a.Gamma-1)/math.Sqrt(a.Prandtl)) * math.Sqrt(w*a.Viscosity/(2*a.Density)) / (0.05 * a.SpeedOfSound)
	near(t, "attenuation", real(cmplx.Sqrt(zs*ys))/want, 1, 0.01)
	near(t, "attenuation", want/(3e-5*math.Sqrt(100)/0.05), 1, 0.03)
}

func TestRectangularEnd(t *testing.T) {
	for _, row := range published(t, "rectangular_end.csv") {
		v := numbers(t, row, 0)
		h := 0.1
		w := v[0] * h
		near(t, "aspect "+row[0], RectangularEnd(w, h)/math.Sqrt(w*h), v[1], 1e-6)
		near(t, "turned", RectangularEnd(h, w), RectangularEnd(w, h), 1e-12)
	}
	// The circle of the same area: 8/(3 pi) radii.
	near(t, "circle", FlangedEnd/math.Sqrt(math.Pi), 0.478899, 1e-6)
	// Levine and Schwinger print 0.6133; their integral evaluates to 0.6127.
	near(t, "free end", FreeEnd, 0.6133, 1e-3)
}

// A compact source of volume velocity U in a half space makes w rho U/(2 pi r).
// 480 cm2 moving 10 mm peak at 20 Hz in air of 1.2041 kg/m3: 94.212 dB at 1 m
// (recomputed).
func TestHalfSpacePressure(t *testing.T) {
	a := air.Properties{Density: 1.2041, SpeedOfSound: 343.2}
	for _, c := range []struct{ hz, volume, db float64 }{
		{20, 480e-4 * 10e-3, 94.212}, {30, 480e-4 * 12e-3, 102.839}, {40, 1e-3, 112.628},
	} {
		w := 2 * math.Pi * c.hz
		p := HalfSpacePressure(a, w, 1, complex(w*c.volume/math.Sqrt2, 0))
		near(t, "level", 20*math.Log10(cmplx.Abs(p)/20e-6), c.db, 1e-3)
	}
}

// Stuffing raises a chamber's compliance to gamma times at most.
func TestComplianceOfLining(t *testing.T) {
	a := air.MustStandard()
	near(t, "bare", Compliance(a, 0.05, 0)*a.BulkModulus(), 0.05, 1e-12)
	near(t, "isothermal", Compliance(a, 0.05, 1)/Compliance(a, 0.05, 0), a.Gamma, 1e-12)
}

// Chamber losses are those of Small (JAES 1972, 1973): a leak R = QL/(w0 C) in
// parallel and a lining R = 1/(w0 C QA) in series give a chamber whose stored
// over lost energy at w0 is QL or QA.
func TestChamberLosses(t *testing.T) {
	const w0, c, q = 200.0, 3e-7, 7.0
	var z [1]complex128
	Chamber{Compliance: c, Conductance: w0 * c / q}.Impedance(0, w0, z[:])
	y := 1 / z[0]
	near(t, "QL", imag(y)/real(y), q, 1e-12)
	Chamber{Compliance: c, Absorption: 1 / (w0 * c * q)}.Impedance(0, w0, z[:])
	near(t, "QA", -imag(z[0])/real(z[0]), q, 1e-12)
}
