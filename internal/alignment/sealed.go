package alignment

import (
	"fmt"
	"math"
)

// Qtc of the named second-order alignments (Small, J. Audio Eng. Soc. 20
// (1972) 798).
var (
	CriticalQtc    = 0.5              // no overshoot, two equal real poles
	BesselQtc      = 1 / math.Sqrt(3) // flattest delay
	ButterworthQtc = 1 / math.Sqrt2   // flattest level
)

// ChebyshevQtc returns the Qtc whose response peaks by rippleDB above the
// level far up: the inverse of SealedPeakDB.
func ChebyshevQtc(rippleDB float64) float64 {
	// The peak is Q^2/sqrt(Q^2 - 1/4); with r its square, Q^4 - r Q^2 + r/4 = 0.
	r := math.Pow(10, rippleDB/10)
	return math.Sqrt((r + math.Sqrt(r*(r-1))) / 2)
}

// MostEfficientQtc returns the Qtc at which a closed box of given volume and
// corner is most efficient: the maximum of SealedEfficiency, near 1.13
// (Small 1972).
func MostEfficientQtc() float64 {
	const d = 1e-5
	return bisect(0.8, 1.5, func(q float64) float64 {
		return SealedEfficiency(q-d, 1) - SealedEfficiency(q+d, 1)
	})
}

// SealedEfficiency returns k_eta(G), s3/m3: the reference efficiency is that
// times f3^3 times the volume, for a driver much softer than the box (Small
// 1972), with c the speed of sound in m/s.
func SealedEfficiency(qtc, c float64) float64 {
	x := SealedF3(qtc)
	return 4 * math.Pi * math.Pi / (c * c * c) / (x * x * x * qtc)
}

// SealedF3 returns f3/fc of a closed box.
func SealedF3(qtc float64) float64 { return SealedFrequency(qtc, decibels(0.5)) }

// SealedFrequency returns f/fc at which a closed box is levelDB relative to
// its level far above resonance, on the way down; levelDB is negative.
func SealedFrequency(qtc, levelDB float64) float64 {
	// |G|^2 = x^4/(x^4 + (1/Q^2 - 2) x^2 + 1) = g, a quadratic in x^2.
	g := math.Pow(10, levelDB/10)
	a := 1/(qtc*qtc) - 2
	b := 1/g - 1
	return math.Sqrt((a + math.Sqrt(a*a+4*b)) / (2 * b))
}

// SealedPeakDB returns how far the response rises above its level far up, dB;
// zero up to a Qtc of 1/sqrt(2).
func SealedPeakDB(qtc float64) float64 {
	if qtc <= ButterworthQtc {
		return 0
	}
	q2 := qtc * qtc
	return 2 * decibels(q2/math.Sqrt(q2-0.25))
}

// SealedPeakAt returns f/fc of that peak, +Inf where there is none. Cone
// travel peaks by as many decibels at its inverse.
func SealedPeakAt(qtc float64) float64 {
	if qtc <= ButterworthQtc {
		return math.Inf(1)
	}
	return 1 / math.Sqrt(1-1/(2*qtc*qtc))
}

// SealedBox is a closed box and what it does.
type SealedBox struct {
	VolumeM3 float64 // effective air volume; lining counts for more than it measures
	Qtc      float64
	FcHz     float64 // resonance in the box
	F3Hz     float64
	PeakDB   float64
}

// Sealed returns the closed box that gives a driver the wanted Qtc:
// Vb = Vas/((Qtc/Qts)^2 - 1). A Qtc at or below Qts has none.
func Sealed(d Driver, qtc float64) (SealedBox, error) {
	if err := d.check(); err != nil {
		return SealedBox{}, err
	}
	if !(qtc > d.Qts) || math.IsInf(qtc, 1) {
		return SealedBox{}, fmt.Errorf("a closed box only raises Q: this driver's Qts is %.3g, so choose a Qtc above that, not %.3g", d.Qts, qtc)
	}
	r := qtc / d.Qts
	return SealedIn(d, d.VasM3/(r*r-1))
}

// SealedIn returns what a driver does in a closed box of a given volume, m3.
func SealedIn(d Driver, volumeM3 float64) (SealedBox, error) {
	if err := d.check(); err != nil {
		return SealedBox{}, err
	}
	if !(volumeM3 > 0) {
		return SealedBox{}, fmt.Errorf("the box volume is %g m3; it must be positive", volumeM3)
	}
	r := math.Sqrt(1 + d.VasM3/volumeM3)
	b := SealedBox{VolumeM3: volumeM3, Qtc: d.Qts * r, FcHz: d.FsHz * r}
	b.F3Hz = b.FcHz * SealedF3(b.Qtc)
	b.PeakDB = SealedPeakDB(b.Qtc)
	return b, nil
}
