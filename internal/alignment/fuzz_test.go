package alignment

import (
	"math"
	"testing"
)

// Whatever the numbers, an answer is finite and positive or there is an error.
func FuzzAlignments(f *testing.F) {
	f.Add(30.0, .4, .1, 7.0, .7, .7, .2)
	f.Add(1e-300, 1e300, 1.0, 2.0, 1e308, .1, 1e-12)
	f.Add(20.0, .001, 5.0, math.Inf(1), .5, 2.0, 1e9)
	f.Fuzz(func(t *testing.T, fs, qts, vas, ql, q, s, vap float64) {
		d := Driver{fs, qts, vas}
		if qts < 1e-3 || qts > 1e3 || fs < 1e-3 || fs > 1e6 || vas < 1e-9 || vas > 1e9 || vap < 1e-9 || vap > 1e9 || q > 1e6 {
			return // beyond what the job document lets in
		}
		good := func(what string, v ...float64) {
			for _, x := range v {
				if !(x >= 0) || math.IsInf(x, 0) {
					t.Errorf("%s of %+v: %v", what, d, v)
				}
			}
		}
		if b, err := Sealed(d, q); err == nil {
			good("sealed", b.VolumeM3, b.FcHz, b.F3Hz, b.PeakDB, b.Qtc)
		}
		if b, err := Bandpass(d, q, s); err == nil {
			good("band-pass", b.RearM3, b.FrontM3, b.FcHz, b.LowHz, b.HighHz, b.RippleDB)
		}
		for _, n := range Names() {
			if b, err := Vented(d, n, ql); err == nil {
				good(string(n), b.VolumeM3, b.FbHz, b.F3Hz, b.PeakDB)
			}
		}
		for _, b := range PassiveAll(d, vap) {
			good("passive", b.VolumeM3, b.FbHz, b.FpHz, b.F3Hz, b.PeakDB)
		}
	})
}
