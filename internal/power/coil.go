package power

import "math"

// CoilLimitC is the voice-coil temperature at which the power rating of a
// driver is taken to be reached. Common practice, no source: adhesives and
// formers are specified for 150 to 250 C.
const CoilLimitC = 180

// Heat is what a steady power does to a voice coil.
type Heat struct {
	TemperatureC  float64 // of the coil
	ResistanceX   float64 // resistance over that at 20 C
	CompressionDB float64 // level lost at the same voltage, at or below 0, where the coil's resistance governs
}

// CoilHeat returns the steady state of a coil driven by a fixed voltage that
// would put coldWatts into its resistance at 20 C. The thermal resistance from
// coil to ambient is taken such that ratedWatts, truly taken up, bring it to
// CoilLimitC at 20 C. The heat balance
//
//	T - Ta = Rth coldWatts / (1 + alpha (T - 20))
//
// is a quadratic in T. A real coil also cools by its motion and heats its
// magnet over hours; take the result as an order of size. ratedWatts must be
// positive.
func CoilHeat(coldWatts, ratedWatts, ambientC float64) Heat {
	if !(ratedWatts > 0) {
		panic("power: rated power must be positive")
	}
	const a = TemperatureCoefficient
	rise := (CoilLimitC - 20) / ratedWatts * coldWatts
	// a x^2 + (1 + a d) x - rise = 0 with x = T - Ta and d = Ta - 20.
	b := 1 + a*(ambientC-20)
	x := 2 * rise / (b + math.Sqrt(b*b+4*a*rise))
	h := Heat{TemperatureC: ambientC + x}
	h.ResistanceX = Warm(1, h.TemperatureC)
	h.CompressionDB = -20 * math.Log10(h.ResistanceX)
	return h
}
