package judge

import (
	"math"

	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// Verdict is what a sub does at one seat, from the most level it can play
// there with every limit counted, averaged over a third of an octave.
type Verdict struct {
	// ReachHz is the lowest frequency down to which the level stays within
	// 3 dB of its mean over the octave below UpperHz. ReachBelow says that it
	// is the lowest frequency computed and the level is still up there.
	ReachHz    float64
	ReachBelow bool
	// AskedHz is the lowest frequency down to which the level asked for is
	// met without a gap from UpperHz, or zero where UpperHz itself misses it.
	AskedHz float64
	// Limit is what runs out first at full drive, and LimitBelowHz the
	// frequency under which it does so; zero where nothing does before the
	// amplifier's voltage.
	Limit        system.Limit
	LimitBelowHz float64
	// Then is another limit that takes over further down, below ThenBelowHz;
	// zero where none does for more than a third of an octave.
	Then        system.Limit
	ThenBelowHz float64
	// LevelDB is the least level from there, or from the reach, up to UpperHz.
	LevelDB float64
	// RippleDB is the largest less the least level between the reach (but not
	// under 25 Hz) and UpperHz.
	RippleDB float64
	// UpperHz is the upper edge of the band judged.
	UpperHz float64
}

// dropDB is the fall that ends the reach: half power, as in every published
// definition of a cut-off.
const dropDB = 3

// rippleFromHz keeps what is felt more than heard out of the ripple.
const rippleFromHz = 25

// Upper returns the upper edge of the octave that the subs are judged in:
// three quarters of the lowest crossover, or 80 Hz without one.
func Upper(j job.Job) float64 {
	upper := 80.0
	for _, s := range j.Subs {
		for _, f := range s.Channel.Filters {
			if f.Kind == "lowpass" && !f.Off {
				upper = math.Min(upper, 0.75*f.FreqHz)
			}
		}
	}
	return math.Max(upper, 25)
}

// Of judges a curve of most level (dB) and of what binds (system.Limit codes)
// on a rising grid. askedDB is the level that AskedHz refers to.
func Of(hz, top, code []float64, upper, askedDB float64) Verdict {
	v := Verdict{UpperHz: upper, Limit: system.AmplifierVolts}
	s := Smooth(hz, top)
	i := len(hz) - 1
	for i > 0 && hz[i] > upper {
		i--
	}
	v.reach(hz, top, s, i)
	v.limit(hz, code, i)
	v.level(hz, s, i)
	for k := i; k >= 0 && s[k] >= askedDB; k-- {
		v.AskedHz = hz[k]
		if k > 0 && s[k-1] < askedDB {
			v.AskedHz = cross(hz[k-1], hz[k], s[k-1], s[k], askedDB)
		}
	}
	return v
}

func (v *Verdict) reach(hz, top, s []float64, i int) {
	ref, ok := Mean(hz, top, v.UpperHz/2, v.UpperHz)
	if !ok {
		ref = s[i]
	}
	// From the strongest point of the band, so that a dip at its upper edge,
	// where the crossover is, does not end the search.
	for k := i; k >= 0 && hz[k] >= v.UpperHz/2; k-- {
		if s[k] > s[i] {
			i = k
		}
	}
	for ; i > 0; i-- {
		if s[i-1] < ref-dropDB {
			v.ReachHz = cross(hz[i-1], hz[i], s[i-1], s[i], ref-dropDB)
			return
		}
	}
	v.ReachHz, v.ReachBelow = hz[0], true
}

// cross interpolates where the level passes want, along log frequency.
func cross(f0, f1, l0, l1, want float64) float64 {
	if l1 == l0 {
		return f1
	}
	return f0 * math.Pow(f1/f0, min(max((want-l0)/(l1-l0), 0), 1))
}

// limit finds the highest frequency of the band at which something other than
// the amplifier's voltage stops the level. Far below the reach it does not
// matter what does.
func (v *Verdict) limit(hz, code []float64, i int) {
	for ; i >= 0 && hz[i] >= 0.7*v.ReachHz; i-- {
		if l := system.Limit(code[i]); l != system.AmplifierVolts && l != system.NoLimit {
			v.Limit, v.LimitBelowHz = l, hz[i]
			v.then(hz, code, i)
			return
		}
	}
}

// then finds the next limit below the first that rules for a third of an
// octave: what flickers in between is no news.
func (v *Verdict) then(hz, code []float64, i int) {
	for ; i > 0 && hz[i] >= 0.7*v.ReachHz; i-- {
		l := system.Limit(code[i])
		if l == v.Limit || l == system.AmplifierVolts {
			continue
		}
		k := i
		for k > 0 && system.Limit(code[k-1]) == l {
			k--
		}
		if hz[i]/hz[k] > math.Cbrt(2) {
			v.Then, v.ThenBelowHz = l, hz[i]
			return
		}
		i = k
	}
}

func (v *Verdict) level(hz, s []float64, i int) {
	from := math.Min(math.Max(v.LimitBelowHz, v.ReachHz), 0.9*v.UpperHz)
	v.LevelDB = s[i]
	low, high := s[i], s[i]
	for ; i >= 0; i-- {
		if hz[i] >= from {
			v.LevelDB = math.Min(v.LevelDB, s[i])
		}
		if hz[i] >= math.Max(v.ReachHz, rippleFromHz) {
			low, high = math.Min(low, s[i]), math.Max(high, s[i])
		}
	}
	v.RippleDB = high - low
}
