package alignment

import (
	"fmt"
	"math"
)

// BandpassBox is a fourth-order band-pass box: a closed rear chamber, a vented
// front chamber, the front tuned to the resonance in the rear.
type BandpassBox struct {
	RearM3   float64
	FrontM3  float64
	FcHz     float64 // centre, tuning of the front chamber
	LowHz    float64 // lower and upper frequency 3 dB below the centre
	HighHz   float64
	GainDB   float64 // level at the centre over that of the bare driver far up
	RippleDB float64 // rise on either side above the centre
}

// Bandpass returns the symmetrical fourth-order band-pass (Fincham, Audio Eng.
// Soc. 63rd Convention (1979); Geddes, J. Audio Eng. Soc. 37 (1989) 308)
// without losses. q is the driver's Q in the rear chamber, which must exceed
// Qts. s is the damping ratio of the second-order low-pass from which the
// band-pass derives: 1/sqrt(2) is flat, less ripples and widens.
//
//	Vr = Vas/((q/Qts)^2 - 1)   Vf = (2 s Qts)^2 Vas   fc = fs q/Qts
func Bandpass(d Driver, q, s float64) (BandpassBox, error) {
	if err := d.check(); err != nil {
		return BandpassBox{}, err
	}
	if !(q > d.Qts) || math.IsInf(q, 1) {
		return BandpassBox{}, fmt.Errorf("the rear chamber only raises Q: this driver's Qts is %.3g, so choose a Q above that, not %.3g", d.Qts, q)
	}
	if !(s >= 0.1 && s <= 2) {
		return BandpassBox{}, fmt.Errorf("the damping S is %g; give one from 0.1 to 2 (0.707 is flat)", s)
	}
	r := q / d.Qts
	b := BandpassBox{
		RearM3:  d.VasM3 / (r*r - 1),
		FrontM3: 4 * s * s * d.Qts * d.Qts * d.VasM3,
		FcHz:    d.FsHz * r,
		GainDB:  4 * decibels(2*s*q),
	}
	// |low-pass|^2 = 1/((1 - u^2)^2 + (2 s u)^2) is one half at:
	t := 1 - 2*s*s
	u := math.Sqrt(t + math.Sqrt(t*t+1))
	if t > 0 {
		b.RippleDB = -decibels(4 * s * s * (1 - s*s))
	}
	// Low-pass frequency u, in units of 1/(2 s q), is f/fc - fc/f.
	w := u / (2 * s * q)
	b.LowHz = b.FcHz * (math.Sqrt(w*w+4) - w) / 2
	b.HighHz = b.FcHz * (math.Sqrt(w*w+4) + w) / 2
	return b, nil
}
