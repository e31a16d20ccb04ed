package driver

import "math"

// Tolerances are half-widths, as shares of the value (0.1 is ten per cent), of
// how far a driver from the shop may lie from its sheet.
type Tolerances struct {
	Fs, Q, Vas float64
}

// PerturbSize is how many numbers Perturb wants.
const PerturbSize = 4

// Perturb returns a driver of the same make that lies elsewhere within its
// tolerances. u holds PerturbSize numbers from 0 to 1: for Fs, Qes, Qms and
// Vas, each of which becomes (1 + half-width (2u - 1)) of itself; 0.5 leaves it.
// Re, Sd and the coil stay, and Mms, Cms, Rms, Bl and Qts follow, so that the
// result is a consistent driver: a larger Vas at the same Fs is a softer
// suspension and a lighter cone. It panics when u is too short.
func (d Driver) Perturb(t Tolerances, u []float64) Driver {
	_ = u[PerturbSize-1]
	factor := func(half, u float64) float64 {
		// Never to zero, whatever tolerance was typed.
		return math.Max(0.05, 1+half*(2*math.Min(1, math.Max(0, u))-1))
	}
	fs, vas := factor(t.Fs, u[0]), factor(t.Vas, u[3])
	qes, qms := factor(t.Q, u[1]), factor(t.Q, u[2])

	d.Fs *= fs
	d.Qes *= qes
	d.Qms *= qms
	d.Qts = d.Qes * d.Qms / (d.Qes + d.Qms)
	d.Vas *= vas
	d.Cms *= vas
	d.Mms /= vas * fs * fs
	d.Rms /= vas * fs * qms           // w Mms / Qms
	d.Bl /= math.Sqrt(vas * fs * qes) // sqrt(w Mms Re / Qes)
	return d
}
