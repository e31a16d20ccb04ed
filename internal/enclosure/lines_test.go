package enclosure

import (
	"math"
	"math/rand/v2"
	"testing"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// The search for the resonance of a line starts from a frequency that is below
// it (1/w0^2 is less than all its compliance times all its mass, a bound of
// Rayleigh's quotient), and nothing resonates in between: as it meets the cone
// the reactance is that of a mass all the way up.
func TestNothingResonatesBelowTheLine(t *testing.T) {
	a := air.MustStandard()
	r := rand.New(rand.NewPCG(41, 42))
	for n := range 40 {
		b := job.Box{Type: "line"}
		length := 0.0
		for range 1 + r.IntN(6) {
			s := job.Segment{LengthMM: 50 + 900*r.Float64(), StartCM2: 20 + 900*r.Float64(), EndCM2: 20 + 900*r.Float64()}
			length += s.LengthMM
			b.Line = append(b.Line, s)
		}
		b.TapMM = 0.8 * length * r.Float64()
		toward, behind, err := linePieces(b)
		if err != nil {
			t.Fatal(err)
		}
		endMass := 20 * r.Float64()
		hz := lineResonance(a, toward, behind, endMass)
		if low := lowestOf(a, toward, behind, endMass) / (2 * math.Pi); !(low < hz) {
			t.Errorf("line %d resonates at %.2f Hz, below the bound of %.2f Hz", n, hz, low)
		}
		l := network.NewLine(a, toward, behind)
		for f := 0.02 * hz; f < 0.998*hz; f *= 1.003 {
			var z [4]complex128
			w := 2 * math.Pi * f
			l.Impedance(0, w, z[:])
			if in := z[0] - z[1]*z[2]/(z[3]+complex(0, w*endMass)); imag(in) < 0 {
				t.Errorf("line %d of %.2f Hz already resonated at %.2f Hz", n, hz, f)
				break
			}
		}
	}
}

// A line from memory answers as a new one does, on any grid, and a changed line
// is not taken for it.
func TestLinesFromMemory(t *testing.T) {
	var lines Lines
	b := job.Box{Type: "line", TapMM: 300, Line: []job.Segment{
		{LengthMM: 900, StartCM2: 300, EndCM2: 420, Stuffing: 6}, {LengthMM: 900, StartCM2: 420, EndCM2: 420},
	}}
	solve := func(lines *Lines, b job.Box, omega []float64) []complex128 {
		var n network.Network
		s := Setting{Net: &n, Air: air.MustStandard(), World: newOpenWorld(&n), Lines: lines}
		p, err := Assemble(s, testUnit(1, 1), b)
		if err != nil {
			t.Fatal(err)
		}
		return n.Solve(omega).Flow[0][p.Cone]
	}
	for _, omega := range [][]float64{grid(10, 250, 100), grid(10, 250, 100), grid(12, 300, 40), grid(10, 250, 100)} {
		for _, length := range []float64{900, 905} {
			b.Line[1].LengthMM = length
			got, want := solve(&lines, b, omega), solve(nil, b, omega)
			for k := range want {
				if got[k] != want[k] {
					t.Fatalf("%g mm at point %d: %v from memory, %v anew", length, k, got[k], want[k])
				}
			}
		}
	}
	if n := len(lines.last); n != 2 {
		t.Errorf("%d lines are remembered of 2", n)
	}
}
