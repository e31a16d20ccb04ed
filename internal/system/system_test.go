package system

import (
	"context"
	"testing"

	"bootfloor/internal/job"
)

// solved returns the response of a job, which must have no errors.
func solved(t testing.TB, s *Solver, j job.Job) *Response {
	t.Helper()
	r, found := s.Respond(j, DefaultGrid)
	for _, f := range found {
		if f.Level == job.LevelError {
			t.Fatalf("%s: %s", f.At, f.Say)
		}
	}
	return r
}

// BenchmarkRecompute is the whole recompute with an unchanged cabin: sub, two
// doors, all seats, 400 frequencies.
func BenchmarkRecompute(b *testing.B) {
	s := NewSolver()
	j := job.Demo()
	solved(b, s, j)
	for i := 0; b.Loop(); i++ {
		j.Subs[0].Box.NetL = 20 + float64(i%10)
		solved(b, s, j)
	}
}

// steepCars are cabins that take longer to solve than most: narrow arches behind
// the rear seats, those with a rising floor behind them, and a long van with a
// step of floor, roof and sides. Invented.
var steepCars = []struct {
	name     string
	stations [][4]float64 // x, floor, roof, width, mm
}{
	{"demo", nil},
	{"arches", [][4]float64{{0, 250, 750, 1200}, {700, 0, 1100, 1400}, {1950, 0, 1150, 1400}, {1980, 100, 1140, 980}, {2800, 100, 950, 980}}},
	{"estate_arches", [][4]float64{{0, 320, 860, 1250}, {730, 0, 1080, 1360}, {1520, 0, 1200, 1360}, {1570, 240, 1200, 890},
		{2200, 240, 1200, 890}, {2240, 400, 1180, 980}, {2590, 400, 980, 860}}},
	{"van_width_step", [][4]float64{{0, 0, 1580, 1720}, {650, 0, 1650, 1720}, {680, 400, 1650, 1190}, {1700, 400, 1650, 1190},
		{1740, 110, 1300, 1190}, {2420, 110, 1300, 1190}, {2470, 450, 1530, 1190}, {3510, 450, 1310, 1090}}},
}

// withStations is the demo in another cabin.
func withStations(stations [][4]float64) job.Job {
	j := job.Demo()
	if stations != nil {
		j.Car.Cabin.Stations = nil
	}
	for _, s := range stations {
		j.Car.Cabin.Stations = append(j.Car.Cabin.Stations, job.Station{XMM: s[0], FloorMM: s[1], RoofMM: s[2], WidthMM: s[3]})
	}
	return j
}

// BenchmarkNewCabin is the same with a changed cabin.
func BenchmarkNewCabin(b *testing.B) {
	change := func(name string, j job.Job) {
		b.Run(name, func(b *testing.B) {
			s := NewSolver()
			n := len(j.Car.Cabin.Stations)
			for b.Loop() {
				j.Car.Cabin.Stations[n-1].XMM += 0.1
				solved(b, s, j)
			}
		})
	}
	for _, key := range job.BodyKeys() {
		change(key, job.New(key))
	}
	for _, c := range steepCars {
		change(c.name, withStations(c.stations))
	}
}

// BenchmarkBand is how sure a changed box is, in a car already seen.
func BenchmarkBand(b *testing.B) {
	s := NewSolver()
	j := job.Demo()
	for i := 0; b.Loop(); i++ {
		j.Subs[0].Box.NetL = 20 + float64(i%10)
		if band, _ := s.Band(context.Background(), j, BandSamples, nil); band == nil {
			b.Fatal("no band")
		}
	}
}

// BenchmarkBandNewCabin is the same in a changed car.
func BenchmarkBandNewCabin(b *testing.B) {
	s := NewSolver()
	j := job.Demo()
	n := len(j.Car.Cabin.Stations)
	for b.Loop() {
		j.Car.Cabin.Stations[n-1].XMM += 0.1
		if band, _ := s.Band(context.Background(), j, BandSamples, nil); band == nil {
			b.Fatal("no band")
		}
	}
}
