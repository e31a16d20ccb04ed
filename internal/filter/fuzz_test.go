package filter

import (
	"math"
	"math/cmplx"
	"testing"

	"bootfloor/internal/job"
)

// Whatever a channel holds, the chain is finite in the band that is computed,
// and every setting that is not used has a finding.
func FuzzFromJob(f *testing.F) {
	f.Add("lowpass", "bessel", 4, 80.0, 0.0, 0.0, -3.0, 5.0, "peak", "", 0, 45.0, -6.0, 4.0)
	f.Add("highpass", "linkwitz_riley", 8, 1.0, math.NaN(), 1e300, 40.0, 1000.0, "low_shelf", "x", -1, 4e4, 30.0, 0.05)
	f.Add("", "butterworth", 1, math.Inf(1), 0.0, 0.0, math.NaN(), -1.0, "high_shelf", "", 9, -5.0, -30.0, 50.0)
	f.Fuzz(func(t *testing.T, k1, s1 string, o1 int, f1, g1, q1, gain, delay float64, k2, s2 string, o2 int, f2, g2, q2 float64) {
		c, found := FromJob(job.Channel{
			Filters: []job.Filter{
				{Kind: k1, Shape: s1, Order: o1, FreqHz: f1, GainDB: g1, Q: q1},
				{Kind: k2, Shape: s2, Order: o2, FreqHz: f2, GainDB: g2, Q: q2},
			},
			GainDB: gain, DelayMS: delay,
		})
		for _, x := range found {
			if x.At == "" || x.Say == "" {
				t.Errorf("empty finding %+v", x)
			}
		}
		for _, hz := range []float64{5, 31.7, 80, 500, 20000} {
			if h := c.At(rad(hz)); cmplx.IsNaN(h) || cmplx.IsInf(h) {
				t.Errorf("%g Hz: %v", hz, h)
			}
			if d := c.GroupDelay(rad(hz)); math.IsNaN(d) || math.IsInf(d, 0) {
				t.Errorf("%g Hz: delay %v", hz, d)
			}
		}
		if bank, err := c.Digital(96000); err == nil {
			for _, b := range bank {
				// Stable: both poles inside the unit circle (the triangle of Jury).
				if !(math.Abs(b.A2) < 1+1e-9 && math.Abs(b.A1) < 1+b.A2+1e-9) {
					t.Errorf("unstable section %+v", b)
				}
			}
		}
	})
}
