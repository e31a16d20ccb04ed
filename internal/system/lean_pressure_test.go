package system

import (
	"math"
	"testing"

	"bootfloor/internal/filter"
	"bootfloor/internal/job"
)

// leanSum is the level at a seat from bare pressures and the job's filters.
func leanSum(t *testing.T, j job.Job, b *Bare, seat int) []float64 {
	t.Helper()
	sum := make([]complex128, len(b.Omega))
	add := func(c int, ch job.Channel) {
		chain, found := filter.FromJob(ch)
		if len(found) > 0 {
			t.Fatal(found)
		}
		for k, h := range chain.Response(b.Omega) {
			sum[k] += h * b.Pressure[c][seat][k]
		}
	}
	for i, s := range j.Subs {
		add(i, s.Channel)
	}
	if j.Doors.Fitted {
		add(len(j.Subs), j.Doors.Channel)
	}
	return levels(sum)
}

// The lean way must be the full one, in every body style, also when a
// measurement has taught something: two routes through the same network.
func TestLeanIsTheFullResponse(t *testing.T) {
	g := Grid{FromHz: 8, ToHz: 250, Points: 60}
	for _, body := range job.BodyKeys() {
		j := job.New(body)
		j.Car.Learned = &job.Learned{LeakScale: 1.7, DampingScale: 0.8, VolumeScale: 1.1, LevelDB: -2}
		s := NewSolver()
		r, found := s.Respond(j, g)
		if r == nil {
			t.Fatal(body, found)
		}
		b, found := s.Lean().Bare(j, g, asStated, 1)
		if b == nil {
			t.Fatal(body, found)
		}
		for i, id := range b.Seats {
			want := r.Find("level/sum/" + id)
			for k, got := range leanSum(t, j, b, i) {
				if math.Abs(got-want[k]) > 1e-6 {
					t.Fatalf("%s, %s, %.1f Hz: %.6f dB lean, %.6f dB in full", body, id, r.Hz[k], got, want[k])
				}
			}
		}
	}
}

// A factor on leak, damping or volume given to the lean way must do what the
// same factor does in the document. Only the leak differs, whose mouth the
// lean way keeps as it was: by less than 0.2 dB rms for a factor of two.
func TestLeanVariations(t *testing.T) {
	g := Grid{FromHz: 8, ToHz: 250, Points: 60}
	for _, body := range job.BodyKeys() {
		if body == "open_car" {
			continue // without a roof there is nothing to vary
		}
		for _, c := range []struct {
			leak, damping, volume, tol float64
		}{{1, 1.4, 1, 1e-6}, {1, 1, 0.9, 1e-6}, {2, 1, 1, 0.2}, {0.5, 1, 1, 0.2}} {
			j := job.New(body)
			s := NewSolver()
			l := s.Lean()
			b, found := l.Bare(j, g, Variation{Length: 1, Leak: c.leak, Damping: c.damping}, c.volume)
			if b == nil {
				t.Fatal(body, found)
			}
			j.Car.Learned = &job.Learned{LeakScale: c.leak, DampingScale: c.damping, VolumeScale: c.volume}
			r, found := s.Respond(j, g)
			if r == nil {
				t.Fatal(body, found)
			}
			for i, id := range b.Seats {
				want, square := r.Find("level/sum/"+id), 0.0
				for k, got := range leanSum(t, j, b, i) {
					square += (got - want[k]) * (got - want[k])
				}
				if rms := math.Sqrt(square / float64(len(want))); rms > c.tol {
					t.Errorf("%s, %s, leak x%g damping x%g volume x%g: %.3g dB rms apart", body, id, c.leak, c.damping, c.volume, rms)
				}
			}
		}
	}
}

// BenchmarkLean is one trial of a fit: a changed damping, 110 frequencies.
func BenchmarkLean(b *testing.B) {
	l := NewSolver().Lean()
	j := job.Demo()
	g := Grid{FromHz: 8, ToHz: 200, Points: 110}
	for i := 0; b.Loop(); i++ {
		if r, _ := l.Bare(j, g, Variation{Length: 1, Leak: 1, Damping: 1 + 1e-3*float64(i)}, 1); r == nil {
			b.Fatal("no pressure")
		}
	}
}

// BenchmarkLeanLeak is one with only the leak changed.
func BenchmarkLeanLeak(b *testing.B) {
	l := NewSolver().Lean()
	j := job.Demo()
	g := Grid{FromHz: 8, ToHz: 200, Points: 110}
	for i := 0; b.Loop(); i++ {
		if r, _ := l.Bare(j, g, Variation{Length: 1, Leak: 1 + 1e-3*float64(i), Damping: 1}, 1); r == nil {
			b.Fatal("no pressure")
		}
	}
}
