package alignment

import "math"

// AlphaFromPeaks returns Vas/Vb of a vented box from three frequencies of its
// impedance: the two peaks and the minimum between them (Small, J. Audio Eng.
// Soc. 21 (1973) 363). It is exact without losses; at a QL of 7 it reads about
// 2 % high.
func AlphaFromPeaks(lowHz, minHz, highHz float64) float64 {
	return (highHz + minHz) * (highHz - minHz) * (minHz + lowHz) * (minHz - lowHz) /
		(highHz * highHz * lowHz * lowHz)
}

// LeakFromMinimum returns QL of a vented box from the impedance minimum
// between its peaks: rm is that impedance over the coil's resistance (Small
// 1973). h is fb/fs, alpha Vas/Vb; qes and qms are the driver's.
func LeakFromMinimum(h, alpha, qes, qms, rm float64) float64 {
	return h / alpha * (1/(qes*(rm-1)) - 1/qms)
}

// ImpedancePeaks returns the two frequencies of the impedance peaks of a
// vented box without losses, from fs fb = fL fH and fs^2 (1 + alpha) + fb^2 =
// fL^2 + fH^2.
func ImpedancePeaks(fsHz, fbHz, alpha float64) (lowHz, highHz float64) {
	sum := fsHz*fsHz*(1+alpha) + fbHz*fbHz
	product := fsHz * fbHz
	high2 := (sum + math.Sqrt(sum*sum-4*product*product)) / 2
	highHz = math.Sqrt(high2)
	return product / highHz, highHz
}
