package system

import (
	"testing"

	"bootfloor/internal/enclosure"
	"bootfloor/internal/job"
)

// typeCase is a box of some type, and how it stands.
type typeCase struct {
	name string
	set  func(*job.Sub)
}

// typeCases are every box type, and what else makes one dearer: cones in
// pairs, several drivers, firing down, and a line of as many stuffed and flared
// pieces as the document allows.
func typeCases() []typeCase {
	var all []typeCase
	for _, k := range enclosure.Kinds() {
		all = append(all, typeCase{k.Key, func(s *job.Sub) { s.Box = boxOf(k.Key) }})
	}
	down := func(s *job.Sub) { s.Place.Fires, s.Place.GapMM = "down", 60 }
	pairs := func(s *job.Sub, kind string, series, parallel int) {
		s.Box = boxOf(kind)
		s.Box.Isobaric, s.Series, s.Parallel = true, series, parallel
	}
	return append(all,
		typeCase{"sealed, four drivers, down", func(s *job.Sub) {
			s.Box = boxOf("sealed")
			s.Series, s.Parallel = 2, 2
			down(s)
		}},
		typeCase{"vented, isobaric, down", func(s *job.Sub) { pairs(s, "vented", 1, 2); down(s) }},
		typeCase{"bandpass6_parallel, isobaric, down", func(s *job.Sub) { pairs(s, "bandpass6_parallel", 1, 2); down(s) }},
		typeCase{"bandpass6_series, isobaric, down", func(s *job.Sub) { pairs(s, "bandpass6_series", 1, 2); down(s) }},
		typeCase{"line of most pieces, isobaric, down", func(s *job.Sub) {
			pairs(s, "line", 1, 2)
			down(s)
			s.Box.TapMM, s.Box.Line = 450, nil
			for i := range job.MaxSegments {
				area := 300 + 20*float64(i)
				s.Box.Line = append(s.Box.Line, job.Segment{LengthMM: 100, StartCM2: area, EndCM2: area + 20, Stuffing: 2 + float64(i)})
			}
		}},
	)
}

// BenchmarkTypes is the whole recompute with an unchanged car, as
// BenchmarkRecompute is, with every box type in turn and its size changing
// each time.
func BenchmarkTypes(b *testing.B) {
	for _, c := range typeCases() {
		b.Run(c.name, func(b *testing.B) {
			s := NewSolver()
			j := job.Demo()
			c.set(&j.Subs[0])
			solved(b, s, j)
			for i := 0; b.Loop(); i++ {
				box := &j.Subs[0].Box
				box.NetL = 40 + float64(i%10)
				if box.Type == "line" {
					box.Line[0].LengthMM = 100 + float64(i%10)
				}
				solved(b, s, j)
			}
		})
	}
}
