package power

import "math"

// Pole frequencies of the frequency weightings, Hz (IEC 61672-1:2013, annex E).
const (
	weightF1 = 20.598997
	weightF2 = 107.65265
	weightF3 = 737.86223
	weightF4 = 12194.217
)

// CWeight returns the C weighting at a frequency, dB (IEC 61672-1:2013).
func CWeight(hz float64) float64 { return 20 * math.Log10(cGain(hz)/cGain(1000)) }

// AWeight returns the A weighting at a frequency, dB (IEC 61672-1:2013). The
// table of the standard belongs to the exact base-ten band centres, not to
// their nominal names.
func AWeight(hz float64) float64 { return 20 * math.Log10(aGain(hz)/aGain(1000)) }

func cGain(f float64) float64 {
	f2 := f * f
	return weightF4 * weightF4 * f2 / ((f2 + weightF1*weightF1) * (f2 + weightF4*weightF4))
}

func aGain(f float64) float64 {
	f2 := f * f
	return cGain(f) * f2 / math.Sqrt((f2+weightF2*weightF2)*(f2+weightF3*weightF3))
}

// Sum adds levels of unrelated sounds: 10 lg of the sum of 10^(L/10), dB. It
// returns -Inf for none.
func Sum(levelsDB ...float64) float64 {
	total := 0.0
	for _, l := range levelsDB {
		total += math.Pow(10, l/10)
	}
	return 10 * math.Log10(total)
}
