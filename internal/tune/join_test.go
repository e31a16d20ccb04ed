package tune

import (
	"context"
	"math"
	"math/cmplx"
	"strings"
	"testing"

	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// freeField makes the paths of two small sources in the open, r metres away:
// pressure exp(-jkr)/r, the textbook simple source, at one seat.
func freeField(subM, doorM float64) *paths {
	const c = 343
	g := system.Grid{FromHz: 40, ToHz: 160, Points: 49}
	p := &paths{hz: g.Hz(), omega: g.Omega(), seats: []int{0}, ids: []string{"wheel"}, early: []float64{0}}
	one := func(r float64) [][]complex128 {
		out := make([]complex128, len(p.omega))
		for k, w := range p.omega {
			out[k] = cmplx.Exp(complex(0, -w*r/c)) / complex(r, 0)
		}
		return [][]complex128{out}
	}
	p.per = [][][][]complex128{{one(subM), one(doorM)}}
	return p
}

// crossed is a job with one sub and doors through a pair of filters.
func crossed(shape string, order int) job.Job {
	j := job.New("hatch")
	f := job.Filter{Shape: shape, Order: order, FreqHz: 80}
	f.Kind = "lowpass"
	j.Subs[0].Channel, j.Doors.Channel = job.Channel{}, job.Channel{}
	j.Subs[0].Channel.Filters = []job.Filter{f}
	f.Kind = "highpass"
	j.Doors.Channel.Filters = []job.Filter{f}
	return j
}

func joined(t *testing.T, j job.Job, p *paths, o JoinOptions) (Joined, setting) {
	t.Helper()
	if o.MaxDelayMS == 0 {
		o.MaxDelayMS = 12
	}
	q, err := newSearch(j, p, o, 80)
	if err != nil {
		t.Fatal(err)
	}
	s, err := q.run(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	out, err := q.report(s)
	if err != nil {
		t.Fatal(err)
	}
	return out, s
}

// Two simple sources at different distances, crossed by filters that sum flat
// when the paths are equal, must get the difference of the paths as delay and
// of the distances as level: the closed form. Linkwitz-Riley of fourth order
// sums in phase, of second order with one polarity reversed (S. Linkwitz, J.
// Audio Eng. Soc. 24 (1976) 2).
func TestJoinFindsThePathDifference(t *testing.T) {
	for _, c := range []struct {
		name         string
		shape        string
		order        int
		sub, door    float64
		doorInverted bool
		flip         bool
	}{
		{"sub behind, fourth order", "linkwitz_riley", 4, 2.4, 1.2, false, false},
		{"doors behind, fourth order", "linkwitz_riley", 4, 1.0, 1.9, false, false},
		{"second order", "linkwitz_riley", 2, 2.1, 1.3, false, true},
		{"doors wired the wrong way", "linkwitz_riley", 4, 2.4, 1.2, true, true},
		{"eighth order", "linkwitz_riley", 8, 1.8, 1.1, false, false},
	} {
		j := crossed(c.shape, c.order)
		j.Doors.Channel.Inverted = c.doorInverted
		out, s := joined(t, j, freeField(c.sub, c.door), JoinOptions{})
		wantMS := (c.sub - c.door) / 343 * 1000
		wantDB := 20 * math.Log10(c.sub/c.door)
		// A quarter of a millisecond off, 7 degrees at the crossover, costs a
		// hundredth of a decibel of ripple: no search by level tells it closer.
		if math.Abs(s.delayMS-wantMS) > 0.25 || math.Abs(s.levelDB-wantDB) > 0.1 || s.flip != c.flip {
			t.Errorf("%s: %+v, want %.2f ms, %.2f dB, flip %v", c.name, s, wantMS, wantDB, c.flip)
		}
		if out.After.RMSDB > 0.05 || !out.Changed {
			t.Errorf("%s: %.2f dB rms is left", c.name, out.After.RMSDB)
		}
		if d := out.Doors.DelayMS - out.Subs[0].DelayMS; math.Abs(d-wantMS) > 0.25 || math.Min(out.Doors.DelayMS, out.Subs[0].DelayMS) != 0 {
			t.Errorf("%s: delays %g and %g ms", c.name, out.Doors.DelayMS, out.Subs[0].DelayMS)
		}
		if d := out.Subs[0].GainDB - out.Doors.GainDB; math.Abs(d-s.levelDB) > 1e-9 || out.Subs[0].GainDB > 0 || out.Doors.GainDB > 0 {
			t.Errorf("%s: levels %g and %g dB", c.name, out.Subs[0].GainDB, out.Doors.GainDB)
		}
	}
}

// An even Linkwitz-Riley join is left alone, and its levels are those of the
// closed form with a delay between the two halves: |low| = 1/(1+x^4), |high| =
// x^4/(1+x^4), in phase with each other at all frequencies.
func TestLinkwitzRileySum(t *testing.T) {
	j := crossed("linkwitz_riley", 4)
	out, _ := joined(t, j, freeField(1, 1), JoinOptions{})
	if out.Changed || out.Before.RMSDB > 1e-9 || !strings.HasPrefix(out.Say, "Leave") {
		t.Errorf("%+v %s", out.Before, out.Say)
	}
	q, err := newSearch(j, freeField(1, 1), JoinOptions{MaxDelayMS: 12}, 80)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []setting{{delayMS: 1.7}, {delayMS: -3, flip: true}, {levelDB: 6, delayMS: 0.4}} {
		for k, got := range q.levels(s, 0, 0) {
			x := math.Pow(q.paths.hz[k]/80, 4)
			l, h := math.Pow(10, s.levelDB/20)/(1+x), x/(1+x)
			sign := 1.0
			if s.flip {
				sign = -1
			}
			want := 10 * math.Log10((l*l+h*h+2*sign*l*h*math.Cos(q.paths.omega[k]*s.delayMS*1e-3))/system.Reference/system.Reference)
			if math.Abs(got-want) > 1e-8 {
				t.Fatalf("%+v at %.1f Hz: %.9f dB, closed form %.9f", s, q.paths.hz[k], got, want)
			}
		}
	}
}

// Where corner and slope may change, filters that cannot sum flat give way to
// ones that do.
func TestJoinChangesFilters(t *testing.T) {
	j := crossed("butterworth", 4)
	j.Subs[0].Channel.Filters[0].FreqHz = 60
	j.Doors.Channel.Filters = append([]job.Filter{{Kind: "peak", FreqHz: 300, Q: 2, GainDB: -3}}, j.Doors.Channel.Filters...)
	j.Doors.Channel.Filters[1].FreqHz = 120
	out, _ := joined(t, j, freeField(2, 1.2), JoinOptions{ChangeFilters: true})
	if out.After.RMSDB > 0.15 {
		t.Errorf("%.2f dB rms is left: %s", out.After.RMSDB, out.Say)
	}
	low, high := out.Subs[0].Filters[0], out.Doors.Filters[1]
	if low.FreqHz != high.FreqHz || low.Shape != high.Shape || low.Kind != "lowpass" || high.Kind != "highpass" {
		t.Errorf("%+v and %+v", low, high)
	}
	if out.Doors.Filters[0].Kind != "peak" || len(out.Doors.Filters) != 2 {
		t.Errorf("the other filters did not stay: %+v", out.Doors.Filters)
	}
	if j.Subs[0].Channel.Filters[0].FreqHz != 60 {
		t.Error("the caller's job was changed")
	}
}

// A slope of the target is kept to.
func TestTargetSlope(t *testing.T) {
	j := crossed("linkwitz_riley", 4)
	flat, _ := joined(t, j, freeField(1, 1), JoinOptions{})
	house, s := joined(t, j, freeField(1, 1), JoinOptions{Target: House})
	if flat.Changed || !house.Changed || s.levelDB <= 0 {
		t.Errorf("flat changed %v, house changed %v with the sub %+g dB", flat.Changed, house.Changed, s.levelDB)
	}
}

// In every body style the recommendation, put into the job, must do in the
// full response what was promised, and be no worse than the job as it was.
func TestJoinAgreesWithTheFullResponse(t *testing.T) {
	for _, body := range job.BodyKeys() {
		j := job.New(body)
		j.Doors.Channel.DelayMS, j.Subs[0].Channel.DelayMS = 1, 0.4
		if body == "estate" { // two subs that differ
			second := j.Subs[0]
			second.ID, second.Channel.DelayMS, second.Channel.GainDB = "second", 1.3, -4
			second.Place.YMM, second.Channel.Inverted = 300, true
			j.Subs = append(j.Subs, second)
		}
		s := system.NewSolver()
		out, err := Join(context.Background(), s, j, JoinOptions{Seats: []string{"wheel", "passenger"}, ChangeFilters: body == "hatch"}, nil)
		if err != nil {
			t.Fatal(err)
		}
		if out.After.RMSDB > out.Before.RMSDB+0.05 || out.After.LikelyDB > out.Before.LikelyDB {
			t.Errorf("%s: %+v to %+v", body, out.Before, out.After)
		}
		check := func(what string, want [][]float64) {
			r, found := s.Respond(j, system.Grid{FromHz: out.FromHz, ToHz: out.ToHz, Points: len(out.Hz)})
			if r == nil {
				t.Fatal(found)
			}
			for i, seat := range out.Seats {
				for k, v := range r.Find("level/sum/" + seat) {
					if math.Abs(v-want[i][k]) > 1e-3 {
						t.Fatalf("%s, %s, %s, %.1f Hz: promised %.4f dB, is %.4f", body, what, seat, out.Hz[k], want[i][k], v)
					}
				}
			}
		}
		check("before", out.BeforeDB)
		j.Doors.Channel = out.Doors
		for i := range j.Subs {
			j.Subs[i].Channel = out.Subs[i]
		}
		if found := job.Check(j); job.HasError(found) {
			t.Fatal(body, found)
		}
		check("after", out.AfterDB)
	}
}

func TestJoinRefuses(t *testing.T) {
	noDoors, noSub := job.New("hatch"), job.New("hatch")
	noDoors.Doors.Fitted = false
	noSub.Subs = nil
	for _, c := range []struct {
		j    job.Job
		o    JoinOptions
		want string
	}{
		{noDoors, JoinOptions{}, "door speakers"},
		{noSub, JoinOptions{}, "no sub"},
		{job.New("hatch"), JoinOptions{CrossoverHz: 3000}, "20 to 500 Hz"},
		{job.New("hatch"), JoinOptions{CrossoverHz: math.NaN()}, "20 to 500 Hz"},
		{job.New("hatch"), JoinOptions{Seats: []string{"roof"}}, "not in this car"},
	} {
		if _, err := Join(context.Background(), system.NewSolver(), c.j, c.o, nil); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Join(ctx, system.NewSolver(), job.New("hatch"), JoinOptions{}, nil); err != context.Canceled {
		t.Errorf("cancelled: %v", err)
	}
}

// BenchmarkJoin is two seats, eight variations, filters as they are.
func BenchmarkJoin(b *testing.B) { benchmarkJoin(b, false) }

// BenchmarkJoinFilters lets corner and slope change too.
func BenchmarkJoinFilters(b *testing.B) { benchmarkJoin(b, true) }

func benchmarkJoin(b *testing.B, filters bool) {
	s, j := system.NewSolver(), job.New("hatch")
	for b.Loop() {
		if _, err := Join(context.Background(), s, j, JoinOptions{Seats: []string{"wheel", "passenger"}, ChangeFilters: filters}, nil); err != nil {
			b.Fatal(err)
		}
	}
}
