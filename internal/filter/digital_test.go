package filter

import (
	"math"
	"strings"
	"testing"

	"bootfloor/internal/job"
)

// Coefficients at 48 kHz evaluated from the formulas of the W3C Working Group
// Note "Audio EQ Cookbook" (8 June 2021) by a separate program; the low-pass
// also equals scipy.signal.butter(2, 80, fs=48000), the peak
// scipy.signal.bilinear of its prototype.
func TestCookbookCoefficients(t *testing.T) {
	q := 1 / math.Sqrt2
	for _, row := range []struct {
		s    Section
		want Biquad
	}{
		{Section{Kind: LowPass, FreqHz: 80, Q: q}, Biquad{2.72138079882582e-05, 5.44276159765164e-05, 2.72138079882582e-05, -1.98519065789626, .985299513128215}},
		{Section{Kind: HighPass, FreqHz: 25, Q: q}, Biquad{.997688673703782, -1.99537734740756, .997688673703782, -1.99537200517118, .995382689643946}},
		{Section{Kind: Peak, FreqHz: 45, Q: 4, GainDB: -6}, Biquad{.999481743511064, -1.99788737831887, .998440296485208, -1.99788737831887, .997922039996273}},
		{Section{Kind: LowShelf, FreqHz: 60, Q: q, GainDB: 6}, Biquad{1.00192953350962, -1.99063287292285, .988790066521125, -1.99065450321716, .990697969736441}},
		{Section{Kind: HighShelf, FreqHz: 3000, Q: q, GainDB: -4}, Biquad{.671949431749457, -.935199230186935, .361299803820843, -1.5108652838529, .608915289236264}},
	} {
		got, err := row.s.Digital(48000)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "b0", got.B0, row.want.B0, 1e-12)
		near(t, "b1", got.B1, row.want.B1, 1e-12)
		near(t, "b2", got.B2, row.want.B2, 1e-12)
		near(t, "a1", got.A1, row.want.A1, 1e-12)
		near(t, "a2", got.A2, row.want.A2, 1e-12)
	}
}

// Gains of the same sections, recomputed, to the printed digit, from the
// digital and from the analog section.
func TestBandGains(t *testing.T) {
	for _, row := range []struct {
		s      Section
		hz, dB float64
	}{
		{Section{Kind: Peak, FreqHz: 45, Q: 4, GainDB: -6}, 45, -6},
		{Section{Kind: Peak, FreqHz: 45, Q: 4, GainDB: -6}, 10, -.0221},
		{Section{Kind: Peak, FreqHz: 45, Q: 4, GainDB: -6}, 80, -.2609},
		{Section{Kind: LowShelf, FreqHz: 60, Q: 1 / math.Sqrt2, GainDB: 6}, 10, 5.9950},
		{Section{Kind: LowShelf, FreqHz: 60, Q: 1 / math.Sqrt2, GainDB: 6}, 60, 3},
		{Section{Kind: LowShelf, FreqHz: 60, Q: 1 / math.Sqrt2, GainDB: 6}, 80, 1.4861},
	} {
		b, err := row.s.Digital(48000)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "digital", dB(b.At(row.hz, 48000)), row.dB, 5.1e-5)
		near(t, "analog", dB(New([]Section{row.s}, 0, false, 0).At(rad(row.hz))), row.dB, 1.5e-4)
	}
	// A high shelf is the mirror image of a low shelf.
	hi := New([]Section{{Kind: HighShelf, FreqHz: 50, Q: .8, GainDB: 5}}, 0, false, 0)
	lo := New([]Section{{Kind: LowShelf, FreqHz: 50, Q: .8, GainDB: 5}}, 0, false, 0)
	near(t, "mirror", dB(hi.At(rad(20))), dB(lo.At(rad(125))), 1e-12)
}

// At bass frequencies the digital chain is the analog one; first-order
// sections and a Bessel crossover, whose sections have frequencies of their
// own, included.
func TestDigitalFollowsAnalog(t *testing.T) {
	for _, shape := range []Shape{Butterworth, LinkwitzRiley, Bessel} {
		for n := 1; n <= MaxOrder; n++ {
			for _, kind := range []Kind{LowPass, HighPass} {
				s, err := Crossover(kind, shape, n, 80)
				if err != nil {
					continue // Linkwitz-Riley has no odd orders
				}
				c := New(s, 0, false, 0)
				bank, err := c.Digital(96000)
				if err != nil {
					t.Fatal(err)
				}
				for _, f := range []float64{20, 80, 200} {
					h := complex(1, 0)
					for _, b := range bank {
						h *= b.At(f, 96000)
					}
					near(t, "level", dB(h), dB(c.At(rad(f))), 1e-3)
				}
				// Exact at the corner.
				h := complex(1, 0)
				for _, b := range bank {
					h *= b.At(80, 96000)
				}
				near(t, "corner", dB(h), dB(c.At(rad(80))), 1e-8)
			}
		}
	}
}

func TestDigitalRefusesAboveHalfRate(t *testing.T) {
	if _, err := (Section{Kind: LowPass, FreqHz: 30000, Q: 1}).Digital(48000); err == nil {
		t.Error("accepted")
	}
}

func TestFromJob(t *testing.T) {
	ch := job.Channel{
		Filters: []job.Filter{
			{Kind: "highpass", Shape: "butterworth", Order: 4, FreqHz: 25},
			{Kind: "lowpass", Shape: "linkwitz_riley", Order: 4, FreqHz: 80},
			{Kind: "peak", FreqHz: 45, GainDB: -6, Q: 4},
			{Kind: "peak", FreqHz: -1, Off: true},
		},
		GainDB: -3, DelayMS: 5, Inverted: true,
	}
	c, found := FromJob(ch)
	if len(found) != 0 || len(c.Sections()) != 5 {
		t.Fatalf("%v, %d sections", found, len(c.Sections()))
	}
	near(t, "level", dB(c.At(rad(45))), dB(crossover(t, HighPass, Butterworth, 4, 25).At(rad(45)))+
		dB(crossover(t, LowPass, LinkwitzRiley, 4, 80).At(rad(45)))-9, 1e-12)
	near(t, "delay", c.DelayS(), 0.005, 0)

	for field, edit := range map[string]func(*job.Channel){
		"/filters/0/freq_hz": func(c *job.Channel) { c.Filters[0].FreqHz = math.NaN() },
		"/filters/0/shape":   func(c *job.Channel) { c.Filters[0].Shape = "brick" },
		"/filters/1/order":   func(c *job.Channel) { c.Filters[1].Order = 3 },
		"/filters/1/kind":    func(c *job.Channel) { c.Filters[1].Kind = "notch" },
		"/filters/2/q":       func(c *job.Channel) { c.Filters[2].Q = 0 },
		"/filters/2/gain_db": func(c *job.Channel) { c.Filters[2].GainDB = 99 },
		"/gain_db":           func(c *job.Channel) { c.GainDB = math.Inf(1) },
		"/delay_ms":          func(c *job.Channel) { c.DelayMS = -1 },
	} {
		bad := ch
		bad.Filters = append([]job.Filter(nil), ch.Filters...)
		edit(&bad)
		c, found := FromJob(bad)
		if len(found) != 1 || found[0].At != field || found[0].Level != "error" || !strings.HasSuffix(found[0].Say, ".") {
			t.Errorf("%s: %v", field, found)
		}
		if h := dB(c.At(rad(60))); math.IsNaN(h) || math.IsInf(h, 0) {
			t.Errorf("%s: the rest of the chain gives %g dB", field, h)
		}
	}
}
