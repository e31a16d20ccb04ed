package tune

import (
	"math"
	"sort"

	"bootfloor/internal/system"
)

// median returns the median of a - b.
func median(a, b []float64) float64 {
	d := make([]float64, len(a))
	for i := range a {
		d[i] = a[i] - b[i]
	}
	sort.Float64s(d)
	return system.Percentile(d, 0.5)
}

// leastNoiseDB is how well a microphone in a car can agree with anything.
const leastNoiseDB = 0.25

// noiseOf estimates the standard deviation of a reading from what a fit left
// over: from the median of the sizes, 1.4826 times which is the deviation of
// normal noise (F. R. Hampel, J. American Statistical Association 69 (1974)
// 383), and larger where neighbours agree, because then they are fewer
// independent readings than they seem: by the factor (1+r)/(1-r) on the
// variance, r the correlation of neighbours, that of an autoregressive series
// of first order (M. S. Bartlett, J. Royal Statistical Society 98 (1935) 536,
// from memory).
func noiseOf(residual []float64) float64 {
	size := make([]float64, len(residual))
	var mean float64
	for i, r := range residual {
		size[i] = math.Abs(r)
		mean += r / float64(len(residual))
	}
	sort.Float64s(size)
	sigma := 1.4826 * system.Percentile(size, 0.5)
	n := float64(len(residual))
	sigma *= math.Sqrt(n / math.Max(n-nParameters, 1))
	sigma = math.Max(sigma, leastNoiseDB)

	var square, cross float64
	clip := func(r float64) float64 { return math.Max(-3*sigma, math.Min(3*sigma, r-mean)) }
	for i := range residual {
		a := clip(residual[i])
		square += a * a
		if i > 0 {
			cross += a * clip(residual[i-1])
		}
	}
	r := 0.0
	if square > 0 {
		r = math.Max(0, math.Min(0.9, cross/square))
	}
	return sigma * math.Sqrt((1+r)/(1-r))
}

// rms of a - b.
func rms(a, b []float64) float64 {
	var s float64
	for i := range a {
		s += (a[i] - b[i]) * (a[i] - b[i])
	}
	return math.Sqrt(s / float64(len(a)))
}
