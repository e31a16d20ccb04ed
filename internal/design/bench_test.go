package design

import (
	"context"
	"testing"

	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// BenchmarkFind designs for one car, as a page does: the car has been seen
// before. It reports how many candidates each design works out.
func BenchmarkFind(b *testing.B) {
	for _, rough := range []bool{false, true} {
		for _, typ := range Types() {
			name := typ
			if rough {
				name += "/rough"
			}
			b.Run(name, func(b *testing.B) {
				s := system.NewSolver()
				j := job.New("hatch")
				room, err := RoomOf(j)
				if err != nil {
					b.Fatal(err)
				}
				find := func() *Design {
					d, err := Find(context.Background(), s, Task{Job: j, Type: typ, Goal: Goal{Kind: Balanced}, Room: &room, Rough: rough})
					if err != nil {
						b.Fatal(err)
					}
					return d
				}
				find()
				for b.Loop() {
					b.ReportMetric(float64(find().Tried), "tried")
				}
			})
		}
	}
}
