package enclosure

import (
	"testing"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// BenchmarkTypes assembles and solves each box of the circuit checks in the
// open at 400 frequencies, and a line of as many stuffed pieces as the document
// allows.
func BenchmarkTypes(b *testing.B) {
	omega := grid(10, 500, 400)
	a := air.MustStandard()
	all := circuits()
	long := job.Box{Type: "line", TapMM: 900}
	for i := range job.MaxSegments {
		s := float64(300 + 20*i)
		long.Line = append(long.Line, job.Segment{LengthMM: 100, StartCM2: s, EndCM2: s + 20, Stuffing: 2 + float64(i%7)})
	}
	all = append(all, circuit{name: "longest line", box: long})
	for _, c := range all {
		b.Run(c.name, func(b *testing.B) {
			u := testUnit(max(c.series, 1), max(c.parallel, 1))
			for b.Loop() {
				var n network.Network
				if _, err := Assemble(Setting{Net: &n, Air: a, World: newOpenWorld(&n), At: c.place}, u, c.box); err != nil {
					b.Fatal(err)
				}
				n.Solve(omega)
			}
		})
	}
}
