package network

import (
	"math"
	"testing"

	"bootfloor/internal/air"
)

// table is a body whose matrix is looked up, as a cabin's is.
type table struct {
	doors int
	rows  [][]complex128
}

func (t *table) Doors() int { return t.doors }

func (t *table) Impedance(k int, _ float64, z []complex128) { copy(z, t.rows[k]) }

// modalTable is a body of n doors made of damped modes with real shapes: what
// a cabin is. Its matrix is symmetric with a positive semidefinite real part.
func modalTable(n int, omega []float64) *table {
	t := &table{doors: n}
	a := air.MustStandard()
	const volume, modes = 3.0, 8
	for _, w := range omega {
		z := make([]complex128, n*n)
		for m := range modes {
			wn := 2 * math.Pi * 40 * float64(m)
			h := complex(0, w*a.BulkModulus()/volume) /
				complex(wn*wn-w*w, 0.1*w*(wn+60))
			for i := range n {
				for j := range n {
					shape := math.Cos(float64(m*(i+1))) * math.Cos(float64(m*(j+1)))
					z[i*n+j] += h * complex(shape, 0)
				}
			}
		}
		t.rows = append(t.rows, z)
	}
	return t
}

// carLike is the network of a usual job: a vented sub with a leak, two door
// speakers in leaky doors and a leaking cabin of ten doors: ten links, three
// meshes and channels, three ears.
func carLike(omega []float64) *Network {
	var n Network
	a := air.MustStandard()
	cabin := n.AddBody(modalTable(10, omega))
	door := func(i int) Door { return Door{cabin, i} }
	still := n.AddChamber(Still{})
	coil := BranchFunc(func(w float64) complex128 { return complex(3.4, w*1e-3) })

	box := n.AddChamber(Chamber{Compliance: Compliance(a, 0.05, 0.1)})
	cone := n.Join(box, door(0), Mechanical{Mass: 0.12, Compliance: 2.5e-4, Resistance: 4, Area: 0.048})
	n.Couple(n.AddMesh(0, coil), cone, 12/0.048)
	n.Join(box, door(0), Resistor(1e5))
	duct := n.AddBody(Duct{Air: a, Length: 0.3, Area: 0.008, Perimeter: 0.32})
	n.Join(box, Door{duct, 0}, Inertance{Mass: 4})
	n.Join(Door{duct, 1}, door(1), Inertance{Mass: 5, Resistance: 10})
	for i := range 2 {
		rear := n.AddChamber(Chamber{Compliance: Compliance(a, 0.04, 0)})
		cone := n.Join(rear, door(2+2*i), Mechanical{Mass: 0.015, Compliance: 6e-4, Resistance: 1.5, Area: 0.0135})
		n.Couple(n.AddMesh(1+i, coil), cone, 5/0.0135)
		n.Join(rear, door(3+2*i), Inertance{Mass: 9, Resistance: 500})
	}
	n.Join(door(6), still, Inertance{Mass: 15, Resistance: 200})
	n.Join(door(6), still, Inertance{Mass: 20, Resistance: 300})
	for i := range 3 {
		n.Probe(door(7 + i))
	}
	return &n
}

func logGrid(lo, hi float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = 2 * math.Pi * lo * math.Pow(hi/lo, float64(i)/float64(n-1))
	}
	return out
}

func BenchmarkSolve(b *testing.B) {
	omega := logGrid(10, 500, 400)
	n := carLike(omega)
	for b.Loop() {
		n.Solve(omega)
	}
}
