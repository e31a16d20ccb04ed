package tune

import (
	"math"

	"bootfloor/internal/job"
)

// Parameters of the fit.
const (
	leak = iota
	damping
	volume
	level
	nParameters
)

// Standard uncertainties of what was believed before. Those of leak and
// damping are the half-widths in the document; what is the least of them, and
// how far the volume that a cabin seems to have may lie from the tape's (seats
// of foam, panels that breathe, the space behind trim), is assumed.
const (
	leastFactorSigma = 0.1
	volumeSigma      = 0.15
	microphoneSigma  = 20 // dB, of an uncalibrated level: anything
)

// Bounds of the factors, and of the level in dB.
const (
	leakBound    = 20.0
	dampingBound = 8.0
	volumeBound  = 2.0
	levelBound   = 250.0
	carLevelDB   = 40.0 // the most that a document can keep
)

// The data must narrow a value to at most toldShare of what was believed before
// to have told it even roughly, and a factor to a standard uncertainty of
// toldSigma to have told it outright.
const (
	toldShare = 0.5
	toldSigma = 0.1
)

// believed returns what the document says about each parameter: standard
// uncertainty and bound, factors as logarithms.
func believed(j job.Job, m Measurement) (sigma, bound [nParameters]float64) {
	t, c := j.Tolerance, j.Car.Cabin
	mean := math.Cbrt(c.LengthMM * c.WidthMM * c.HeightMM)
	tape := 0.0
	if mean > 0 {
		tape = 3 * t.TapeMM / mean
	}
	sigma[leak] = math.Max(leastFactorSigma, math.Log1p(t.LeakPct/100))
	sigma[damping] = math.Max(leastFactorSigma, math.Log1p(t.DampingPct/100))
	sigma[volume] = math.Hypot(volumeSigma, tape)
	sigma[level] = microphoneSigma
	if m.Calibrated {
		sigma[level] = m.WithinDB
		if !(sigma[level] > 0) {
			sigma[level] = DefaultWithinDB
		}
	}
	bound = [nParameters]float64{math.Log(leakBound), math.Log(dampingBound), math.Log(volumeBound), levelBound}
	if m.Calibrated {
		bound[level] = carLevelDB
	}
	return sigma, bound
}

// lengthMM of a cabin in either shape.
func lengthMM(c job.Cabin) float64 {
	if n := len(c.Stations); c.Shape == "stations" && n > 0 {
		return c.Stations[n-1].XMM - c.Stations[0].XMM
	}
	return c.LengthMM
}
