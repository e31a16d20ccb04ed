// Package judge reads the few numbers out of a level curve that people decide
// by: how low, how loud, and what stops it.
package judge

import "math"

// Smooth returns levels (dB) averaged in power over a third of an octave
// around each point of a rising frequency grid (the band of IEC 61260-1), so
// that one narrow dip at one ear does not decide an answer.
func Smooth(hz, level []float64) []float64 {
	sum := make([]float64, len(hz)+1)
	for i, l := range level {
		sum[i+1] = sum[i] + math.Pow(10, l/10)
	}
	half := math.Pow(2, 1.0/6)
	out := make([]float64, len(hz))
	lo, hi := 0, 0
	for i, f := range hz {
		for hz[lo] < f/half {
			lo++
		}
		for hi < len(hz) && hz[hi] <= f*half {
			hi++
		}
		out[i] = 10 * math.Log10((sum[hi]-sum[lo])/float64(hi-lo))
	}
	return out
}

// Mean returns the power mean (dB) of level where from <= hz <= to, and false
// when no point lies there.
func Mean(hz, level []float64, from, to float64) (float64, bool) {
	var sum float64
	var n int
	for i, f := range hz {
		if f >= from && f <= to {
			sum += math.Pow(10, level[i]/10)
			n++
		}
	}
	if n == 0 {
		return 0, false
	}
	return 10 * math.Log10(sum/float64(n)), true
}
