package air

import "math"

// point is where a polynomial is evaluated: degrees Celsius, Pa, and the mole
// fraction of water vapour.
type point struct{ t, p, xw float64 }

// clampToCramer returns the nearest point inside the range that Cramer states
// for his polynomials: 0 to 30 C, 75 to 102 kPa, water vapour up to 0.06.
func clampToCramer(t, p, xw float64) point {
	return point{
		math.Min(math.Max(t, 0), 30),
		math.Min(math.Max(p, 75e3), 102e3),
		math.Min(xw, 0.06),
	}
}

// Coefficients a0 to a15 of Cramer (1993), table III, as IEC 61094-2:2009,
// table F.2 repeats them.
var (
	cramerSpeed = [16]float64{
		331.5024, 0.603055, -0.000528,
		51.471935, 0.1495874, -0.000782,
		-1.82e-7, 3.73e-8, -2.93e-10,
		-85.20931, -0.228525, 5.91e-5,
		-2.835149, -2.15e-13, 29.179762, 0.000486,
	}
	cramerGamma = [16]float64{
		1.400822, -1.75e-5, -1.73e-7,
		-0.0873629, -0.0001665, -3.26e-6,
		2.047e-8, -1.26e-10, 5.939e-14,
		-0.1199717, -0.0008693, 1.979e-6,
		-0.01104, -3.478e-16, 0.0450616, 1.82e-6,
	}
)

// quadratic is the form that Cramer gives both the speed of sound and the
// ratio of specific heats.
func quadratic(a *[16]float64, t, p, xw float64) float64 {
	const xc = carbonDioxide
	return a[0] + a[1]*t + a[2]*t*t +
		(a[3]+a[4]*t+a[5]*t*t)*xw +
		(a[6]+a[7]*t+a[8]*t*t)*p +
		(a[9]+a[10]*t+a[11]*t*t)*xc +
		a[12]*xw*xw + a[13]*p*p + a[14]*xc*xc + a[15]*xw*p*xc
}

// idealGamma returns the ratio of specific heats of moist air as a mixture of
// ideal gases: rigid molecules plus harmonic vibration (Einstein's function),
// which is what statistical mechanics gives at these temperatures. Vibrational
// temperatures in kelvin are from memory of the usual tables (Herzberg); at
// 50 C all of them together move the answer by less than 0.1 %.
func idealGamma(t, xw float64) float64 {
	tk := t + kelvin
	dry := 1 - xw
	const oxygen, argon = 0.20939, 0.00917 // CIPM-2007, composition of dry air
	const nitrogen = 1 - oxygen - argon - carbonDioxide
	diatomic := func(theta float64) float64 { return 3.5 + einstein(theta/tk) }
	cp := dry*(nitrogen*diatomic(3352)+oxygen*diatomic(2239)+argon*2.5+
		carbonDioxide*(3.5+2*einstein(960/tk)+einstein(1992/tk)+einstein(3380/tk))) +
		xw*(4+einstein(2294/tk)+einstein(5262/tk)+einstein(5404/tk))
	return cp / (cp - 1)
}

// einstein returns the heat capacity of one harmonic oscillator in units of
// the gas constant, x being its vibrational temperature over the temperature.
func einstein(x float64) float64 {
	e := math.Exp(-x)
	return x * x * e / ((1 - e) * (1 - e))
}
