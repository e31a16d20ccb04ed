package network

import (
	"encoding/binary"
	"math"
	"math/cmplx"
	"testing"

	"bootfloor/internal/air"
)

// FuzzSolve builds a vented box from numbers of any size between a millionth
// and a million of what is usual, lossless where the bits say so, and asks for
// finite answers.
func FuzzSolve(f *testing.F) {
	f.Add([]byte("an ordinary box"), 30.0)
	f.Add([]byte{}, 1e-3)
	f.Add([]byte{255, 255, 255, 255, 0, 0, 0, 0, 255, 255, 0, 0}, 5e4)
	f.Fuzz(func(t *testing.T, data []byte, hz float64) {
		if !(hz >= 1e-3 && hz <= 1e5) {
			return
		}
		next := func(usual float64) float64 {
			if len(data) < 2 {
				return usual
			}
			u := float64(binary.LittleEndian.Uint16(data)) / 65535
			data = data[2:]
			return usual * math.Pow(10, 12*u-6)
		}
		a := air.MustStandard()
		omega := []float64{2 * math.Pi * hz}
		s := speaker{re: next(3), bl: next(10), sd: next(0.05), mms: next(0.1), cms: next(3e-4), rms: next(3)}
		var n Network
		still := n.AddChamber(Still{})
		space := n.AddChamber(HalfSpace{a})
		box := n.AddChamber(Chamber{Compliance: next(4e-7), Absorption: next(100)})
		s.drive(&n, box, space)
		n.Join(box, still, Resistor(next(1e5)))
		duct := n.AddBody(Duct{Air: a, Length: next(0.3), Area: next(0.01), Perimeter: next(0.3), FlowResistivity: next(100)})
		n.Join(box, Door{duct, 0}, Inertance{Mass: next(10)})
		n.Join(Door{duct, 1}, space, Inertance{Mass: next(10)})
		n.Probe(box)
		n.Probe(space)
		sol := n.Solve(omega)
		for _, part := range [][][]complex128{sol.Flow[0], sol.Current[0], sol.Pressure[0]} {
			for i := range part {
				if v := part[i][0]; cmplx.IsNaN(v) || cmplx.IsInf(v) {
					t.Fatalf("answer %d is %v", i, v)
				}
			}
		}
	})
}

// Exactly at a lossless resonance the answer is large but finite.
func TestLosslessResonanceIsFinite(t *testing.T) {
	s := newSpeaker(30, 0.4, math.Inf(1))
	for _, hz := range []float64{30, 30 * math.Sqrt(2.5)} {
		for _, box := range []*lumped{ventedBox(s, 1.5, 30, math.Inf(1)), closedBox(s, 1.5), passiveBox(s, 1, 1, 30)} {
			g, u, z := box.at(hz)
			for _, v := range []complex128{g, u} {
				if cmplx.IsNaN(v) || cmplx.IsInf(v) {
					t.Errorf("%g Hz: %v, impedance %v", hz, v, z)
				}
			}
		}
	}
}
