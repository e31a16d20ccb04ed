package tune

import (
	"fmt"
	"math"

	"bootfloor/internal/job"
)

// result writes what was learned, with its sentences.
func (l *learner) result(verdict [nParameters]Verdict) Learned {
	f := l.factors(l.out.x)
	out := Learned{
		Learned: job.Learned{On: l.o.On, LeakScale: f[leak], DampingScale: f[damping], VolumeScale: f[volume]},
		Hz:      l.r.hz, Measured: l.r.db, Before: l.before,
		After: make([]float64, len(l.r.hz)),
		Said:  append([]string(nil), l.m.Said...),
	}
	for i, r := range l.out.residual {
		out.After[i] = l.r.db[i] - r
	}
	if l.m.Calibrated {
		out.Learned.LevelDB = f[level]
	} else {
		out.MicrophoneDB = l.zero + f[level]
	}
	out.BeforeDB, out.AfterDB = rms(out.Measured, out.Before), rms(out.Measured, out.After)
	for i := range nParameters {
		v := Value{
			Key: [...]string{"leak", "damping", "volume", "level"}[i], Value: f[i],
			PriorSigma: l.sigma[i], Verdict: verdict[i],
			Sigma: l.sigma[i] * math.Sqrt(l.out.covariance.At(i, i)),
		}
		if i == level {
			v.Unit = "dB"
			if !l.m.Calibrated {
				v.Value = out.MicrophoneDB
			}
		}
		v.Say = l.sayValue(i, v)
		out.Values = append(out.Values, v)
	}
	out.Said = append(out.Said, l.sayFit(out))
	return out
}

// cannot is the verdict on a value that stays as it was.
const cannot = "cannot be told from this data"

// sayValue tells one value with its confidence, or why it is not told.
func (l *learner) sayValue(i int, v Value) string {
	from, to := l.r.hz[0], l.r.hz[len(l.r.hz)-1]
	if v.Verdict != Untold {
		edge, is := "", "is"
		if x := l.out.x[i]; x <= l.fit.low[i] || x >= l.fit.high[i] {
			edge = " This is the end of what is thought possible: check the seat, the speakers and the places."
		}
		if v.Verdict == Roughly {
			is = "is roughly"
		}
		within := percent(v.Sigma)
		switch i {
		case leak:
			return fmt.Sprintf("The leak %s %s times what was assumed, some %s cm², give or take %s %%.%s",
				is, short(v.Value), short(v.Value*l.j.Car.Finish.LeakCM2), within, edge)
		case damping:
			return fmt.Sprintf("The damping %s %s times what was assumed, give or take %s %%.%s", is, short(v.Value), within, edge)
		case volume:
			return fmt.Sprintf("The air of the cabin %s %s times what the tape says, going by its sound, give or take %s %%.%s", is, short(v.Value), within, edge)
		}
		if l.m.Calibrated {
			return fmt.Sprintf("The system plays %+.1f dB against the prediction, give or take %.1f dB.%s", v.Value, v.Sigma, edge)
		}
		return fmt.Sprintf("The microphone reads %+.1f dB against the predicted level; as it is not calibrated, this says nothing about the car.", v.Value)
	}
	switch i {
	case leak:
		if !l.asked[leak] {
			return "The car is said to have no leak, so none was looked for; give the leak a size to have it learned."
		}
		return fmt.Sprintf("The leak %s, which begins at %s Hz: a leak shows mostly below 20 Hz. It stays at %s cm².",
			cannot, short(from), short(l.j.Car.Finish.LeakCM2))
	case damping:
		return fmt.Sprintf("The damping %s, which ends at %s Hz: damping shows at the cabin's resonances. It stays as assumed.", cannot, short(to))
	case volume:
		if !l.m.Calibrated {
			return fmt.Sprintf("The volume %s: without a calibrated level a small cabin looks like a loud microphone. It stays as the tape says.", cannot)
		}
		return fmt.Sprintf("The volume %s: the level is known too loosely. It stays as the tape says.", cannot)
	}
	return fmt.Sprintf("Whether the system plays louder than predicted %s: the level is known to within %.1f dB only, and the volume explains it as well. It stays as predicted.", cannot, l.sigma[level])
}

// sayFit tells how well prediction and measurement agree.
func (l *learner) sayFit(out Learned) string {
	matched := ""
	if !l.m.Calibrated {
		matched = ", the level matched"
	}
	s := fmt.Sprintf("Measured and predicted level differ by %.1f dB rms between %s and %s Hz%s; before learning it was %.1f dB.",
		out.AfterDB, short(out.Hz[0]), short(out.Hz[len(out.Hz)-1]), matched, out.BeforeDB)
	if out.AfterDB > 4 {
		s += " That is still far: check which speakers played, their filters, the seat and where the box stands."
	}
	return s
}

// percent writes the standard deviation of a logarithm as one of a factor.
func percent(sigma float64) string { return fmt.Sprintf("%.0f", math.Max(1, 100*math.Expm1(sigma))) }

// short writes a number for a sentence: three figures at most.
func short(v float64) string {
	switch a := math.Abs(v); {
	case a >= 100:
		return fmt.Sprintf("%.0f", v)
	case a >= 10:
		return job.Number(math.Round(v*10)/10, "")
	}
	return job.Number(math.Round(v*100)/100, "")
}
