package driver

import "math"

// mostPoints is how many readings a fit weighs at most; more are averaged.
const mostPoints = 1500

// readingError is the least error of a reading that is believed, as a share:
// below it a better fit is no better evidence.
const readingError = 1e-4

// extend carries the fit towards the top of the curve, an octave at a time, for
// as long as the same model explains it. How the coil's impedance bends there
// parts its resistance from Re, which magnitudes below tell poorly: for a
// semi-inductance the least deviation that any unbiased fit of Re can have
// falls by a third. Two tests guard it: the new readings must scatter no more
// than the old ones (R. A. Fisher's F, 5 % one-sided), and Re may move no
// further than three deviations of what the old ones left open (J. A. Hausman,
// Econometrica 46 (1978) 1251).
func (fit *curveFit) extend(curve Curve, top float64) {
	last := curve.Hz[len(curve.Hz)-1]
	for used := top; used < last && fit.best.covariance != nil; used *= 2 {
		data := curve.below(2*used, mostPoints)
		residuals, n := fit.misfit(data, fit.model)
		if n <= fit.n {
			continue // no reading in this octave
		}
		wider := leastSquares(residuals, n, fit.best.p)
		if wider.covariance == nil {
			return
		}
		old, more := float64(fit.n-len(wider.p)), float64(n-fit.n)
		const floor = readingError * readingError
		variance := fit.best.sum/old + floor
		scatter := math.Log((math.Max(0, wider.sum-fit.best.sum)/more + floor) / variance)
		moved := wider.p[0] - fit.best.p[0]
		open := math.Max(0, fit.best.covariance.At(0, 0)-wider.covariance.At(0, 0)) * variance
		// ln F is nearly normal, of variance 2/n1 + 2/n2.
		if scatter > 1.65*math.Sqrt(2/old+2/more) || moved*moved > 9*open+floor {
			return
		}
		fit.best, fit.n = wider, n
	}
}
