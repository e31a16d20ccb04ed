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

// BenchmarkNewCabin is the same with a changed cabin.
func BenchmarkNewCabin(b *testing.B) {
	s := NewSolver()
	j := job.Demo()
	n := len(j.Car.Cabin.Stations)
	for i := 0; b.Loop(); i++ {
		j.Car.Cabin.Stations[n-1].XMM += 0.1
		solved(b, s, j)
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
