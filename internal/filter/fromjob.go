package filter

import (
	"fmt"

	"bootfloor/internal/job"
)

// Ranges that a channel is read with. They are wide: beyond them a number is a
// slip of the finger or the wrong unit.
const (
	minFreqHz, maxFreqHz = 1, 40000
	minGainDB, maxGainDB = -100, 40
	maxBandDB            = 30
	minQ, maxQ           = 0.05, 50
	maxDelayMS           = 1000
)

// FromJob returns the chain of a channel, and what is wrong with it; the
// pointers of the findings start at the channel. A filter with an error is
// left out, so that the chain can always be evaluated.
func FromJob(ch job.Channel) (Chain, []job.Finding) {
	var found []job.Finding
	bad := func(at, say string, args ...any) {
		found = append(found, job.Errorf(at, say, args...))
	}
	var sections []Section
	for i, f := range ch.Filters {
		if f.Off {
			continue
		}
		at := fmt.Sprintf("/filters/%d", i)
		if !within(f.FreqHz, minFreqHz, maxFreqHz) {
			bad(at+"/freq_hz", "This filter's frequency is %g Hz; give one between %d and %d Hz, or switch it off.",
				f.FreqHz, minFreqHz, maxFreqHz)
			continue
		}
		switch kind := Kind(f.Kind); kind {
		case LowPass, HighPass:
			more, err := Crossover(kind, Shape(f.Shape), f.Order, f.FreqHz)
			if err != nil {
				field := "/order"
				if _, e := Poles(Shape(f.Shape), 2); e != nil {
					field = "/shape"
				}
				bad(at+field, "This crossover has %v.", err)
				continue
			}
			sections = append(sections, more...)
		case Peak, LowShelf, HighShelf:
			if !within(f.Q, minQ, maxQ) {
				bad(at+"/q", "This band's Q is %g; give one between %g and %g (1 is broad, 10 narrow).", f.Q, minQ, float64(maxQ))
				continue
			}
			if !within(f.GainDB, -maxBandDB, maxBandDB) {
				bad(at+"/gain_db", "This band's gain is %g dB; give one between -%d and %d dB.", f.GainDB, maxBandDB, maxBandDB)
				continue
			}
			sections = append(sections, Section{Kind: kind, FreqHz: f.FreqHz, Q: f.Q, GainDB: f.GainDB, MatchHz: f.FreqHz})
		default:
			bad(at+"/kind", "This filter is of kind %q; use lowpass, highpass, peak, low_shelf or high_shelf.", f.Kind)
		}
	}
	gain, delay := ch.GainDB, ch.DelayMS
	if !within(gain, minGainDB, maxGainDB) {
		bad("/gain_db", "The channel's level is %g dB; give one between %d and %d dB.", gain, minGainDB, maxGainDB)
		gain = 0
	}
	if !within(delay, 0, maxDelayMS) {
		bad("/delay_ms", "The channel's delay is %g ms; give one between 0 and %d ms.", delay, maxDelayMS)
		delay = 0
	}
	return New(sections, gain, ch.Inverted, delay/1000), found
}

// within is false for NaN as well.
func within(v, lo, hi float64) bool { return v >= lo && v <= hi }
