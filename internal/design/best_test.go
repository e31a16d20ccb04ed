package design

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"testing"

	"bootfloor/internal/driver"
	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// shelfJob is a job with one driver of the shelf.
func shelfJob(t testing.TB, body, id string) job.Job {
	t.Helper()
	j := job.New(body)
	for _, s := range driver.Shelf() {
		if s.ID == id {
			j.Subs[0].Driver = s.Stated.ToJob()
			return j
		}
	}
	t.Fatalf("no driver %s on the shelf", id)
	return j
}

var kinds = []Kind{Even, Lowest, Loudest, Smallest, Balanced}

// Every aim, against a fine grid over everything the search may vary: 160
// volumes for a closed box; 22 volumes by 22 tunings by 8 sets of tubes for a
// vented one. The search may be better than the grid, and no worse than a
// tenth of what anybody could hear.
func TestBestAgainstEveryBox(t *testing.T) {
	solver := system.NewSolver()
	cases := []struct{ body, driver string }{
		{"hatch", "sub-10-standard"}, {"saloon", "sub-12-long"}, {"estate", "sub-8-shallow"},
	}
	if runtime.GOARCH == "wasm" {
		cases = cases[:1] // the same search, and four times the time
	}
	for _, c := range cases {
		j := shelfJob(t, c.body, c.driver)
		for _, typ := range []string{"sealed", "vented"} {
			least := map[Kind]float64{}
			at := map[Kind]judged{}
			for _, k := range kinds {
				least[k] = math.Inf(1)
			}
			s, err := newSearch(context.Background(), solver, Task{Job: j, Type: typ, Bounds: Bounds{NetMaxL: 100}})
			if err != nil {
				t.Fatal(err)
			}
			every(s, func(c judged) {
				for _, k := range kinds {
					s.goal.Kind = k
					if cost := s.cost(c) + 30*c.broken; cost < least[k] {
						least[k], at[k] = cost, c
					}
				}
			})
			for _, k := range kinds {
				d, err := Best(context.Background(), solver, j, 0, typ, Goal{Kind: k}, Bounds{NetMaxL: 100})
				if err != nil {
					t.Fatal(err)
				}
				// As the search saw it, before the doors and the finer grid.
				s.goal.Kind = k
				found := s.judgeBox(d.Box)
				tolerance := 0.1
				if found.cost > least[k]+tolerance {
					t.Errorf("%s, %s, %s, %s: found %s at a cost of %.3f; every box: %s at %.3f", c.body, c.driver, typ, k,
						boxWords(d.Box), found.cost, boxWords(at[k].box), least[k])
				}
			}
		}
	}
}

func boxWords(b job.Box) string {
	if b.Port == nil {
		return fmt.Sprintf("%.1f l", b.NetL)
	}
	return fmt.Sprintf("%.1f l at %.1f Hz, %d x %.0f mm", b.NetL, b.Port.TuningHz, b.Port.Count, b.Port.DiameterMM)
}

// every judges a fine grid of boxes.
func every(s *search, see func(judged)) {
	if len(s.axes) == 1 {
		for i := range 160 {
			see(s.judgeBox(s.fam.make(s.base, s.unit, s.point([]float64{float64(i) / 159}))))
		}
		return
	}
	sets := []job.Port{}
	for _, d := range tubes {
		sets = append(sets, job.Port{Shape: "round", Count: 1, DiameterMM: d, Ends: "flanged_free"})
	}
	sets = append(sets, job.Port{Shape: "round", Count: 2, DiameterMM: 100, Ends: "flanged_free"}, job.Port{Shape: "round", Count: 2, DiameterMM: 150, Ends: "flanged_free"})
	const n = 22
	for _, p := range sets {
		s.base.Port = &p
		for i := range n * n {
			u := []float64{float64(i%n) / (n - 1), float64(i/n) / (n - 1)}
			see(s.judgeBox(s.fam.make(s.base, s.unit, s.point(u))))
		}
	}
}

// In the open, with a resistive coil and nothing in the channel, a closed box
// is Small's second-order high-pass (JAES 20 (1972) 798): the box that is most
// even over a band must be the one that the closed form says, whose response
// is |x^2/(1 - x^2 + jx/Qtc)|, x = f/fc.
func TestEvenInTheOpenIsTheClosedForm(t *testing.T) {
	j := openJob()
	goal := Goal{Kind: Even, FromHz: 50, ToHz: 150, LevelDB: 60}
	u, err := unitOf(j.Subs[0])
	if err != nil {
		t.Fatal(err)
	}
	d := u.group
	ripple := func(vb float64) float64 {
		r := math.Sqrt(1 + d.Vas/vb)
		fc, q := d.Fs*r, d.Qts*r
		var levels []float64
		var mean float64
		for _, f := range grid.Hz() {
			if f < goal.FromHz || f > goal.ToHz {
				continue
			}
			x2 := f / fc * f / fc
			l := 10 * math.Log10(x2*x2/((1-x2)*(1-x2)+x2/(q*q)))
			levels, mean = append(levels, l), mean+l
		}
		mean /= float64(len(levels))
		var sum float64
		for _, l := range levels {
			sum += (l - mean) * (l - mean)
		}
		return math.Sqrt(sum / float64(len(levels)))
	}
	best, least := 0.0, math.Inf(1)
	for v := 3e-3; v < 120e-3; v *= 1.002 {
		if r := ripple(v); r < least {
			best, least = v, r
		}
	}
	solver := system.NewSolver()
	found, err := Best(context.Background(), solver, j, 0, "sealed", goal, Bounds{NetMaxL: 120})
	if err != nil {
		t.Fatal(err)
	}
	// The valley is flat, and size counts a little: the response decides.
	if got := ripple(found.NetL / 1000); got > least+0.02 {
		t.Errorf("found %.2f l, uneven by %.3f dB; the closed form has %.2f l with %.3f dB", found.NetL, got, 1000*best, least)
	}
	s, err := newSearch(context.Background(), solver, Task{Job: j, Type: "sealed", Goal: goal})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := s.judgeBox(found.Box).ripple, ripple(found.NetL/1000); math.Abs(got-want) > 0.02 {
		t.Errorf("the network is uneven by %.3f dB, the closed form by %.3f", got, want)
	}
	if q := d.Qts * math.Sqrt(1+d.Vas/best); q < 0.6 || q > 1.2 {
		t.Errorf("the closed form itself is off: Qtc %.2f", q)
	}
}

// openJob is a car without a roof, which is the open half space, with a pure
// coil on a cable of no resistance.
func openJob() job.Job {
	j := job.New("hatch")
	j.Car.Openings = []job.Opening{{Kind: "roof_off", AreaCM2: 20000, XMM: 1200, YMM: 0, ZMM: 1100}}
	j.Doors.Fitted = false
	s := &j.Subs[0]
	s.Driver.LeMH = nil
	s.Channel.Filters = nil
	s.Channel.Amplifier.OutputOhm, s.Channel.Amplifier.CableM = 0, 0
	s.Channel.Amplifier.RatedW = 20 // nothing else limits
	return j
}

// The named alignments, solved by the full network in free air, are 3 dB down
// where the literature says: 3.01 dB for every closed and vented one.
func TestAlignmentsInTheNetwork(t *testing.T) {
	solver := system.NewSolver()
	count := 0
	for _, id := range []string{"sub-10-standard", "sub-12-standard", "sub-15-long", "sub-12-free-air"} {
		j := openJob()
		j.Subs[0].Driver = shelfJob(t, "hatch", id).Subs[0].Driver
		j.Subs[0].Driver.LeMH = nil
		named, err := Alignments(j, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range named {
			// With much ripple there is no level "far up" within bass to
			// measure from.
			if n.Type == "bandpass4" || n.PeakDB > 1 {
				continue
			}
			count++
			j.Subs[0].Box = n.Box
			grid := system.Grid{FromHz: n.F3Hz, ToHz: 900, Points: 60}
			r, found := solver.Respond(j, grid)
			if r == nil {
				t.Fatalf("%s %s: %v", id, n.Name, found)
			}
			level := r.Find("level/free")
			far := level[len(level)-1]
			// A real duct has losses and a length of its own, and the box is
			// rounded: a quarter of a decibel. A closed box has only the rounding.
			tolerance := 0.25
			if n.Type == "sealed" {
				tolerance = 0.05
			}
			// At 900 Hz a vented box's port has pipe resonances; the passband
			// is read an octave or two above the corner instead.
			if n.Type == "vented" {
				far = passband(r.Hz, level, 4*n.F3Hz)
			}
			if got := level[0] - far; math.Abs(got+3.01) > tolerance {
				t.Errorf("%s, %s: %.2f dB at %.1f Hz", id, n.Name, got, n.F3Hz)
			}
		}
	}
	if count < 12 {
		t.Errorf("only %d alignments", count)
	}
}

func passband(hz, level []float64, at float64) float64 {
	best := 0
	for i := range hz {
		if math.Abs(math.Log(hz[i]/at)) < math.Abs(math.Log(hz[best]/at)) {
			best = i
		}
	}
	return level[best]
}

// Every type finds a box in two cars, and its numbers are those of the job
// with that box in it.
func TestEveryType(t *testing.T) {
	solver := system.NewSolver()
	for _, body := range []string{"hatch", "saloon"} {
		j := shelfJob(t, body, "sub-10-standard")
		room, err := RoomOf(j)
		if err != nil {
			t.Fatal(err)
		}
		for _, typ := range Types() {
			last := -1
			d, err := Find(context.Background(), solver, Task{Job: j, Type: typ, Goal: Goal{Kind: Balanced}, Room: &room, Watch: func(done, of int) {
				if done < last || done > of {
					t.Errorf("%s: %d of %d after %d", typ, done, of, last)
				}
				last = done
			}})
			if typ == "infinite_baffle" && !j.Car.Boot.Separate {
				if err == nil {
					t.Errorf("%s: a baffle in a car of one room", body)
				}
				continue
			}
			if err != nil {
				t.Errorf("%s, %s: %v", body, typ, err)
				continue
			}
			if !d.Kept && typ != "line" {
				t.Errorf("%s, %s: %s", body, typ, d.Say)
			}
			k := j
			k.Subs = []job.Sub{d.Sub(j.Subs[0])}
			for _, f := range job.Check(k) {
				if f.Level == job.LevelError {
					t.Errorf("%s, %s: %s", body, typ, f.Say)
				}
			}
			r, found := solver.Respond(k, system.DefaultGrid)
			if r == nil {
				t.Errorf("%s, %s: %v", body, typ, found)
				continue
			}
			if got := r.Subs[0].LoadMinOhm; math.Abs(got-d.LoadOhm) > 1e-9 {
				t.Errorf("%s, %s: load %g, the job has %g", body, typ, d.LoadOhm, got)
			}
			for name, v := range map[string]float64{"reach": d.ReachHz, "level": d.LevelDB, "ripple": d.RippleDB, "cost": d.Cost, "port": d.PortMM} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Errorf("%s, %s: %s is %g", body, typ, name, v)
				}
			}
		}
	}
}

// A bound that is set is kept, or said not to be.
func TestBoundsAreKept(t *testing.T) {
	solver := system.NewSolver()
	j := shelfJob(t, "hatch", "sub-12-standard")
	for _, b := range []Bounds{{NetMaxL: 18}, {NetMinL: 60}, {NetMaxL: 30, PortMM: 250}, {SpeedMS: 10, NetMaxL: 60}} {
		for _, typ := range []string{"sealed", "vented"} {
			d, err := Best(context.Background(), solver, j, 0, typ, Goal{Kind: Loudest}, b)
			if err != nil {
				t.Fatal(err)
			}
			over := b.NetMaxL > 0 && d.NetL > 1.006*b.NetMaxL || b.NetMinL > 0 && d.NetL < 0.994*b.NetMinL ||
				b.PortMM > 0 && d.PortMM > 1.006*b.PortMM || b.SpeedMS > 0 && d.SpeedMS > 1.006*b.SpeedMS
			if over && (d.Kept || d.Say == "") {
				t.Errorf("%s, %+v: %.1f l, port %.0f mm, %.1f m/s, and it says it is kept", typ, b, d.NetL, d.PortMM, d.SpeedMS)
			}
			if over && typ == "sealed" {
				t.Errorf("sealed, %+v: %.1f l", b, d.NetL)
			}
		}
	}
}

// A cancelled search ends with the context's error.
func TestCancel(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	n := 0
	_, err := Find(ctx, system.NewSolver(), Task{Job: job.New("hatch"), Type: "vented", Goal: Goal{Kind: Balanced}, Watch: func(int, int) {
		if n++; n == 10 {
			cancel()
		}
	}})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
	if n > 12 {
		t.Errorf("%d more boxes after the cancel", n-10)
	}
}

func TestRefusals(t *testing.T) {
	s := system.NewSolver()
	j := job.New("hatch")
	if _, err := Best(context.Background(), s, j, 0, "horn", Goal{}, Bounds{}); err == nil {
		t.Error("an unknown type is designed")
	}
	if _, err := Best(context.Background(), s, j, 3, "sealed", Goal{}, Bounds{}); err == nil {
		t.Error("a sub that is not there is designed")
	}
	j.Subs[0].Driver.FsHz = nil
	if _, err := Best(context.Background(), s, j, 0, "sealed", Goal{}, Bounds{}); err == nil {
		t.Error("a driver without enough values is designed for")
	}
}
