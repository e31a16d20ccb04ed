package design

import (
	"context"
	"testing"

	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

func BenchmarkBest(b *testing.B) {
	s := system.NewSolver()
	for _, typ := range []string{"sealed", "vented"} {
		b.Run(typ, func(b *testing.B) {
			for b.Loop() {
				j := job.New("hatch")
				d, err := Best(context.Background(), s, j, 0, typ, Goal{Kind: Balanced}, Bounds{NetMaxL: 80})
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(d.Tried), "tried")
			}
		})
	}
}
