package tune

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// truth is a car that differs from its document in a known way.
type truth struct{ leak, damping, volume, levelDB float64 }

// sweep is what measuring programs usually write: 96 readings in an octave.
var sweep = system.Grid{FromHz: 6, ToHz: 220, Points: 500}

// synthetic measures, by the full response, a job whose cabin is in truth
// another, with independent normal noise on each level.
func synthetic(t testing.TB, j job.Job, what Playing, at truth, g system.Grid, noiseDB float64, seed uint64) Measurement {
	t.Helper()
	j.Car.Learned = &job.Learned{LeakScale: at.leak, DampingScale: at.damping, VolumeScale: at.volume, LevelDB: at.levelDB}
	r, found := system.NewSolver().Respond(j, g)
	if r == nil {
		t.Fatal(found)
	}
	m := Measurement{Seat: "wheel", Playing: what, Calibrated: true, Hz: r.Hz}
	id := map[Playing]string{SubAlone: "level/sub/wheel", DoorsAlone: "level/doors/wheel", Both: "level/sum/wheel"}[what]
	noise := rand.New(rand.NewPCG(seed, 7))
	for _, v := range r.Find(id) {
		m.LevelDB = append(m.LevelDB, v+noiseDB*noise.NormFloat64())
	}
	return m
}

func learn(t testing.TB, j job.Job, m Measurement) Learned {
	t.Helper()
	l, err := Learn(context.Background(), system.NewSolver(), j, m, Options{On: "2026-03-01"}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// within checks a learned factor against the truth.
func within(t *testing.T, what string, v Value, want, share float64) {
	t.Helper()
	if v.Verdict != Told {
		t.Errorf("%s: %s was not told: %s", what, v.Key, v.Say)
	} else if math.Abs(v.Value/want-1) > share {
		t.Errorf("%s: %s %.3f, in truth %.3f, more than %.0f %% off (%s)", what, v.Key, v.Value, want, 100*share, v.Say)
	}
}

// A measurement with 1 dB of noise must give back the cabin it was made with.
// The standard: the truth is known, because the full response made it.
func TestLearnFindsTheTruth(t *testing.T) {
	truths := []truth{
		{leak: 1.6, damping: 0.7, volume: 1.12},
		{leak: 1.3, damping: 1.4, volume: 0.9},
		{leak: 2.2, damping: 1.3, volume: 1.2},
		{leak: 1.8, damping: 0.8, volume: 0.88},
		{leak: 1.0, damping: 1.0, volume: 1.0},
	}
	var z [2]float64
	n := 0.0
	for b, body := range []string{"small_hatch", "estate", "off_roader_long", "saloon"} {
		for seed, at := range truths {
			j := job.New(body)
			m := synthetic(t, j, SubAlone, at, sweep, 1, uint64(100*b+seed))
			l := learn(t, j, m)
			within(t, body, l.Values[leak], at.leak, 0.20)
			within(t, body, l.Values[damping], at.damping, 0.20)
			within(t, body, l.Values[volume], at.volume, 0.05)
			if l.AfterDB > 0.8 || l.AfterDB > 1.02*l.BeforeDB { // four readings to a point leave half a decibel
				t.Errorf("%s: %.2f dB off after learning, %.2f before", body, l.AfterDB, l.BeforeDB)
			}
			if l.Learned.LeakScale != l.Values[leak].Value || l.Learned.On != "2026-03-01" {
				t.Errorf("%s: kept %+v", body, l.Learned)
			}
			for i, want := range []float64{at.leak, at.damping} {
				d := math.Log(l.Values[i].Value/want) / l.Values[i].Sigma
				z[i] += d * d
			}
			n++
		}
	}
	// The confidence must be neither boast nor shrug: over the runs the errors
	// are about as large as it says.
	for i, key := range []string{"leak", "damping"} {
		if r := math.Sqrt(z[i] / n); r < 0.5 || r > 1.5 {
			t.Errorf("the errors of the %s are %.2f times what their confidence says", key, r)
		}
	}
}

// What was learned, put into the document, must make the full response agree
// with the measurement as well as the fit said.
func TestLearnedResponseAgrees(t *testing.T) {
	j := job.New("hatch")
	m := synthetic(t, j, Both, truth{leak: 1.7, damping: 0.75, volume: 1.1}, sweep, 0, 1)
	l := learn(t, j, m)
	j.Car.Learned = &l.Learned
	if found := job.Check(j); job.HasError(found) {
		t.Fatal(found)
	}
	r, found := system.NewSolver().Respond(j, sweep)
	if r == nil {
		t.Fatal(found)
	}
	if d := rms(r.Find("level/sum/wheel"), m.LevelDB); d > 0.15 {
		t.Errorf("%.3f dB rms apart without noise", d)
	}
	within(t, "without noise", l.Values[leak], 1.7, 0.05)
	within(t, "without noise", l.Values[damping], 0.75, 0.03)
	within(t, "without noise", l.Values[volume], 1.1, 0.02)
}

// What the data do not hold must not be read from them.
func TestCannotBeTold(t *testing.T) {
	at := truth{leak: 1.8, damping: 0.7, volume: 1.15}
	for _, c := range []struct {
		name   string
		bodies []string
		grid   system.Grid
		untold int
		value  func(job.Learned) float64
	}{
		{"from 30 Hz", []string{"small_hatch", "saloon", "estate"}, system.Grid{FromHz: 30, ToHz: 200, Points: 150}, leak, func(l job.Learned) float64 { return l.LeakScale }},
		// A saloon resonates there, between its boot and its cabin.
		{"from 25 to 40 Hz", []string{"small_hatch", "hatch", "estate"}, system.Grid{FromHz: 25, ToHz: 40, Points: 30}, damping, func(l job.Learned) float64 { return l.DampingScale }},
	} {
		for _, body := range c.bodies {
			j := job.New(body)
			l := learn(t, j, synthetic(t, j, SubAlone, at, c.grid, 1, 3))
			v := l.Values[c.untold]
			if v.Verdict != Untold || v.Value != 1 || c.value(l.Learned) != 1 || !strings.Contains(v.Say, "cannot be told from this data") {
				t.Errorf("%s, %s: %+v", c.name, body, v)
			}
			if l.Values[volume].Verdict != Told {
				t.Errorf("%s, %s: %s", c.name, body, l.Values[volume].Say)
			}
		}
	}
}

// Without a calibrated level the volume is not known, and the offset of the
// microphone must not be laid to the car.
func TestUncalibrated(t *testing.T) {
	j := job.New("small_hatch")
	at := truth{leak: 1.6, damping: 0.7, volume: 1}
	m := synthetic(t, j, SubAlone, at, sweep, 1, 5)
	m.Calibrated = false
	for i := range m.LevelDB {
		m.LevelDB[i] -= 61.3
	}
	l := learn(t, j, m)
	within(t, "uncalibrated", l.Values[leak], at.leak, 0.20)
	within(t, "uncalibrated", l.Values[damping], at.damping, 0.20)
	if v := l.Values[volume]; v.Verdict != Untold || l.Learned.VolumeScale != 1 || !strings.Contains(v.Say, cannot) {
		t.Errorf("%+v", v)
	}
	if l.Learned.LevelDB != 0 || math.Abs(l.MicrophoneDB+61.3) > 0.5 {
		t.Errorf("level %+.2f dB in the car, %+.2f dB at the microphone", l.Learned.LevelDB, l.MicrophoneDB)
	}
}

// Narrow dips and wild readings, as of a passing lorry or of a null that
// stands elsewhere than predicted, must not carry the fit away.
func TestLearnIsRobust(t *testing.T) {
	j := job.New("estate")
	at := truth{leak: 1.6, damping: 0.8, volume: 1.1}
	m := synthetic(t, j, SubAlone, at, sweep, 1, 2)
	for i := range m.LevelDB {
		switch {
		case i%23 == 5:
			m.LevelDB[i] += 15
		case m.Hz[i] > 70 && m.Hz[i] < 73:
			m.LevelDB[i] -= 25
		}
	}
	l := learn(t, j, m)
	if v := l.Values[leak]; math.Abs(v.Value/at.leak-1) > 0.2 {
		t.Errorf("leak %+v", v)
	}
	within(t, "dips and bursts", l.Values[damping], at.damping, 0.20)
	within(t, "dips and bursts", l.Values[volume], at.volume, 0.06)
}

// Levels smoothed to a third of an octave must be compared with a prediction
// smoothed alike: sharp resonances would else be read as heavy damping.
func TestSmoothedMeasurement(t *testing.T) {
	j := job.New("estate")
	at := truth{leak: 1.5, damping: 0.8, volume: 1.1}
	m := synthetic(t, j, SubAlone, at, system.Grid{FromHz: 7, ToHz: 250, Points: 400}, 0, 2)
	m.LevelDB = smoothPower(m.Hz, m.LevelDB, 1.0/3)
	m.SmoothedOctave = 1.0 / 3
	l := learn(t, j, m)
	if v := l.Values[damping]; v.Verdict == Told && math.Abs(v.Value/at.damping-1) > 0.1 {
		t.Errorf("damping %+v", v)
	}
	within(t, "smoothed", l.Values[volume], at.volume, 0.03)
	// The same levels taken as they are mislead, so the smoothing does count.
	m.SmoothedOctave = 0
	if v := learn(t, j, m).Values[damping]; math.Abs(v.Value/at.damping-1) < 0.2 {
		t.Errorf("smoothing that is not known of did no harm: %+v", v)
	}
}

func TestLearnRefuses(t *testing.T) {
	good := job.New("hatch")
	m := synthetic(t, good, SubAlone, truth{1, 1, 1, 0}, sweep, 1, 1)
	open := job.New("open_car")
	open.Car.Openings = []job.Opening{{Kind: "roof_off", AreaCM2: 15000, XMM: 1200, ZMM: 1100}}
	noDoors := job.New("hatch")
	noDoors.Doors.Fitted = false
	with := func(change func(*Measurement)) Measurement { n := m; change(&n); return n }
	for _, c := range []struct {
		name string
		j    job.Job
		m    Measurement
		want string
	}{
		{"roof off", open, m, "roof off"},
		{"no such seat", good, with(func(m *Measurement) { m.Seat = "boot" }), "seat"},
		{"doors not fitted", noDoors, with(func(m *Measurement) { m.Playing = DoorsAlone }), "door speakers"},
		{"played nothing known", good, with(func(m *Measurement) { m.Playing = "organ" }), "choose sub, doors or both"},
		{"few readings", good, with(func(m *Measurement) { m.Hz, m.LevelDB = m.Hz[:4], m.LevelDB[:4] }), "at least 12"},
		{"unequal columns", good, with(func(m *Measurement) { m.Hz = m.Hz[:100] }), "as many levels"},
		{"not rising", good, with(func(m *Measurement) { m.Hz = append([]float64{300}, m.Hz[1:]...) }), "do not rise"},
		{"not a number", good, with(func(m *Measurement) { m.LevelDB = append([]float64{math.NaN()}, m.LevelDB[1:]...) }), "not a number"},
	} {
		_, err := Learn(context.Background(), system.NewSolver(), c.j, c.m, Options{}, nil)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Learn(ctx, system.NewSolver(), good, m, Options{}, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

// A car without a leak has none to learn.
func TestNoLeak(t *testing.T) {
	j := job.New("hatch")
	j.Car.Finish.LeakCM2 = 0
	l := learn(t, j, synthetic(t, j, SubAlone, truth{1, 0.8, 1.1, 0}, sweep, 1, 1))
	if l.Values[leak].Verdict != Untold || l.Learned.LeakScale != 1 || l.Values[leak].Say == "" {
		t.Errorf("%+v", l.Values[leak])
	}
	within(t, "no leak", l.Values[damping], 0.8, 0.2)
}

// BenchmarkLearn is one measurement of a car already on the screen.
func BenchmarkLearn(b *testing.B) {
	j := job.New("hatch")
	m := synthetic(b, j, SubAlone, truth{1.6, 0.7, 1.1, 0}, sweep, 1, 1)
	s := system.NewSolver()
	s.Respond(j, sweep)
	for b.Loop() {
		if _, err := Learn(context.Background(), s, j, m, Options{}, nil); err != nil {
			b.Fatal(err)
		}
	}
}
