package system

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"bootfloor/internal/cavity"
	"bootfloor/internal/enclosure"
	"bootfloor/internal/job"
)

// finiteCurves fails on any value that is not a number.
func finiteCurves(t *testing.T, what string, r *Response) {
	t.Helper()
	for _, c := range r.Curves {
		for k, v := range c.Values {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%s: %s is %g at %.1f Hz", what, c.ID, v, r.Hz[k])
			}
		}
	}
}

// boxOf returns a plausible box of a type.
func boxOf(kind string) job.Box {
	port := &job.Port{Shape: "round", Count: 1, DiameterMM: 100, TuningHz: 32, Ends: "flanged_free"}
	return job.Box{
		Type: kind, NetL: 40, FrontL: 30, QL: 7, PanelMM: 18, Form: "cuboid",
		Port: port, Front: &job.Port{Shape: "round", Count: 1, DiameterMM: 100, TuningHz: 55, Ends: "flanged_free"},
		Passive: &job.Passive{Count: 1, SdCM2: 480, MassG: 150, AddedG: 100, FreeHz: 18, Qmp: 8, XmaxMM: 18},
		Line:    []job.Segment{{LengthMM: 900, StartCM2: 500, EndCM2: 500}, {LengthMM: 900, StartCM2: 500, EndCM2: 450}},
		Vent:    &job.Aperiodic{AreaCM2: 60, Resistance: 800},
	}
}

// Every box type runs in every body style and in free air.
func TestEveryTypeInEveryBody(t *testing.T) {
	s := NewSolver()
	for _, body := range job.BodyKeys() {
		for _, kind := range enclosure.Kinds() {
			j := job.New(body)
			form := j.Subs[0].Box
			j.Subs[0].Box = boxOf(kind.Key)
			j.Subs[0].Box.WidthMM, j.Subs[0].Box.HeightMM, j.Subs[0].Box.DepthMM = form.WidthMM, form.HeightMM, form.DepthMM
			r, found := s.Respond(j, Grid{FromHz: 10, ToHz: 500, Points: 40})
			if r == nil {
				t.Errorf("%s in %s: %v", kind.Key, body, found)
				continue
			}
			finiteCurves(t, kind.Key+" in "+body, r)
		}
	}
}

// The finishes that a document may name are those that the cavity knows.
func TestFinishesAgree(t *testing.T) {
	for _, k := range job.FinishKeys() {
		if _, ok := cavity.FinishByKey(k); !ok {
			t.Errorf("the document may name %q, which the cavity does not know", k)
		}
	}
}

// Whatever stands open or is folded, the answer is finite.
func TestOpenings(t *testing.T) {
	s := NewSolver()
	for _, kind := range []string{"window", "sunroof", "tailgate", "roof_off"} {
		j := job.New("saloon")
		j.Car.Boot.SeatsFolded = true
		j.Car.Openings = []job.Opening{{Kind: kind, AreaCM2: 800, XMM: 1200, YMM: 700, ZMM: 800}}
		finiteCurves(t, kind, solved(t, s, j))
	}
}

// An open window takes bass away at the bottom: the cavity no longer holds
// pressure far below its Helmholtz resonance, where it tends to the free field.
func TestWindowLetsBassOut(t *testing.T) {
	j := job.New("hatch")
	s := NewSolver()
	shut := solved(t, s, j).Find("gain/wheel")
	j.Car.Openings = []job.Opening{{Kind: "window", AreaCM2: 1000, XMM: 1300, YMM: 700, ZMM: 850}}
	open := solved(t, s, j).Find("gain/wheel")
	if d := shut[0] - open[0]; d < 6 {
		t.Errorf("at 10 Hz the window takes %.1f dB away, expected more than 6", d)
	}
}

// The band holds the curve as stated nearly everywhere, is the same every
// time, and widens with the tolerances.
func TestBand(t *testing.T) {
	j := job.Demo()
	// Measured and of a known make: only the stated tolerances count.
	j.Assumed, j.Subs[0].Driver.Typical = nil, false
	s := NewSolver()
	b, found := s.Band(context.Background(), j, BandSamples, nil)
	if b == nil {
		t.Fatal(found)
	}
	r, _ := s.Respond(j, BandGrid)
	again, _ := NewSolver().Band(context.Background(), j, BandSamples, nil)
	width := func(b *Band, id string) (sum float64, inside, n int) {
		for i, c := range b.Low {
			if c.ID != id {
				continue
			}
			for k := range b.Hz {
				v := r.Find(id)[k]
				sum += b.High[i].Values[k] - c.Values[k]
				if v >= c.Values[k]-0.05 && v <= b.High[i].Values[k]+0.05 {
					inside++
				}
				n++
			}
		}
		return sum, inside, n
	}
	w, inside, n := width(b, "level/sub/wheel")
	if inside < n*85/100 {
		t.Errorf("the stated curve lies inside its band at %d of %d points", inside, n)
	}
	if x, _, _ := width(again, "level/sub/wheel"); x != w {
		t.Error("the band is not the same the second time")
	}
	j.Tolerance = job.Tolerance{FsPct: 1, QPct: 1, VasPct: 1, TapeMM: 2, LeakPct: 5, DampingPct: 5}
	tight, _ := s.Band(context.Background(), j, BandSamples, nil)
	if x, _, _ := width(tight, "level/sub/wheel"); x > 0.3*w {
		t.Errorf("a tenth of the tolerance leaves %.2f of the band", x/w)
	}
}

// A car that nobody measured is known less well than one that a tape has
// measured, and so is a driver of which only the size class is known.
func TestBandWidensWhereAssumed(t *testing.T) {
	width := func(j job.Job) (sum float64) {
		b, found := NewSolver().Band(context.Background(), j, BandSamples, nil)
		if b == nil {
			t.Fatal(found)
		}
		for i, c := range b.Low {
			if c.ID == "level/sub/wheel" {
				for k := range b.Hz {
					sum += b.High[i].Values[k] - c.Values[k]
				}
			}
		}
		return sum
	}
	measured := job.Demo()
	measured.Assumed, measured.Subs[0].Driver.Typical = nil, false
	if a, m := width(job.Demo()), width(measured); a < 1.5*m {
		t.Errorf("the band of an assumed car is %.2f of a measured one's", a/m)
	}
}

// An infinite baffle without a boot of its own plays into both sides of one
// room: far below its first mode nothing is left, and the reader is told.
func TestBaffleInAHatch(t *testing.T) {
	s := NewSolver()
	at20 := func(body string) (float64, bool) {
		j := job.New(body)
		j.Subs[0].Box.Type = "infinite_baffle"
		r, found := s.Respond(j, DefaultGrid)
		if r == nil {
			t.Fatal(found)
		}
		told := false
		for _, f := range found {
			told = told || f.At == "/subs/0/box/type"
		}
		for k, f := range r.Hz {
			if f > 20 {
				return r.Find("level/sub/wheel")[k], told
			}
		}
		return 0, told
	}
	saloon, toldSaloon := at20("saloon")
	hatch, toldHatch := at20("hatch")
	if hatch > saloon-20 || !toldHatch || toldSaloon {
		t.Errorf("at 20 Hz %.0f dB in a hatch (told %v), %.0f in a saloon (told %v)", hatch, toldHatch, saloon, toldSaloon)
	}
}

// The samples of a band are even: in every dimension, each fifth of the range
// holds its share of them, within one or two.
func TestVariationsAreEven(t *testing.T) {
	tol := job.Tolerance{FsPct: 10, QPct: 10, VasPct: 10, TapeMM: 20, LeakPct: 50, DampingPct: 50}
	vs := Variations(tol, 1.5, 50)
	for d := range 4 {
		var count [5]int
		for _, v := range vs {
			count[min(int(v.Driver[d]*5), 4)]++
		}
		for i, c := range count {
			if c < 8 || c > 12 {
				t.Errorf("dimension %d: %d of 50 samples in fifth %d", d, c, i)
			}
		}
	}
}

// The picture of the pressure agrees with the curve at the seat.
func TestMapAgreesWithSeat(t *testing.T) {
	j := job.New("hatch")
	// An odd number of rows puts a row of cell centres on any chosen height.
	seat := j.Car.Seats[0]
	s := NewSolver()
	for _, hz := range []float64{25, 60, 110} {
		m, found := s.PressureMap(j, hz, Plane{AtMM: seat.ZMM, Columns: 121, Rows: 81})
		if m == nil {
			t.Fatal(found)
		}
		r, _ := s.Respond(j, Grid{FromHz: hz, ToHz: hz * 1.01, Points: 2})
		want := r.Find("level/sum/wheel")[0]
		tile := m.Tiles[0]
		c := int((seat.XMM*1e-3 - tile.X0) / (tile.X1 - tile.X0) * float64(tile.Columns))
		row := int((seat.YMM*1e-3 - tile.V0) / (tile.V1 - tile.V0) * float64(tile.Rows))
		if got := tile.Values[row*tile.Columns+c]; math.Abs(got-want) > 0.5 {
			t.Errorf("%g Hz: %.2f dB on the map at the wheel, %.2f on the curve", hz, got, want)
		}
	}
}

// Whatever passes the document's own check gives finite curves or a sentence.
func TestRandomJobs(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	s := NewSolver()
	kinds := enclosure.Kinds()
	for range 60 {
		keys := job.BodyKeys()
		j := job.New(keys[rng.IntN(len(keys))])
		j.Subs[0].Box = boxOf(kinds[rng.IntN(len(kinds))].Key)
		j.Subs[0].Box.NetL = math.Exp(rng.Float64()*5 + 1)
		j.Subs[0].Series, j.Subs[0].Parallel = 1+rng.IntN(3), 1+rng.IntN(3)
		for i := range j.Car.Cabin.Stations {
			st := &j.Car.Cabin.Stations[i]
			st.RoofMM += 200 * (rng.Float64() - 0.5)
			st.WidthMM *= 0.8 + 0.4*rng.Float64()
		}
		j.Car.Finish.LeakCM2 = 500 * rng.Float64()
		if job.HasError(job.Check(j)) {
			continue
		}
		r, found := s.Respond(j, Grid{FromHz: 5, ToHz: 800, Points: 25})
		if r == nil {
			for _, f := range found {
				if len(f.Say) < 15 {
					t.Errorf("no sentence: %+v", f)
				}
			}
			continue
		}
		finiteCurves(t, j.Title, r)
	}
}
