package network

import (
	"math"
	"math/rand/v2"

	"bootfloor/internal/air"
)

// span draws a number between lo and hi, even on a logarithmic scale.
func span(r *rand.Rand, lo, hi float64) float64 {
	return lo * math.Pow(hi/lo, r.Float64())
}

// randomNetwork makes a network of passive parts: chambers, ducts and modal
// bodies, joined by links of all kinds, driven through meshes on up to three
// channels, some of which share a cable. Every body has a probe at each door.
func randomNetwork(r *rand.Rand, omega []float64) *Network {
	n := &Network{}
	a := air.MustStandard()
	doors := []Door{n.AddChamber(Still{}), n.AddChamber(HalfSpace{a})}
	for range 2 + r.IntN(4) {
		var b Body
		switch r.IntN(4) {
		case 0:
			b = Duct{Air: a, Length: span(r, 0.01, 3), Area: span(r, 1e-3, 0.1),
				Perimeter: span(r, 0.1, 2), FlowResistivity: 1e3 * r.Float64(), Isothermal: r.Float64()}
		case 1:
			b = modalTable(1+r.IntN(4), omega)
		default:
			b = Chamber{Compliance: Compliance(a, span(r, 1e-3, 0.5), r.Float64()),
				Absorption: 1e3 * r.Float64(), Conductance: 1e-6 * r.Float64()}
		}
		id := n.AddBody(b)
		for i := range b.Doors() {
			doors = append(doors, Door{id, i})
		}
	}
	pick := func() Door { return doors[r.IntN(len(doors))] }
	for range 2 + r.IntN(8) {
		var z Branch
		switch r.IntN(4) {
		case 0:
			z = Inertance{Mass: span(r, 1, 300), Resistance: span(r, 1, 1e4)}
		case 1:
			z = Resistor(span(r, 100, 1e6))
		default:
			z = Mechanical{Mass: span(r, 0.005, 0.5), Compliance: span(r, 1e-5, 2e-3),
				Resistance: span(r, 0.5, 10), Area: span(r, 0.005, 0.1)}
		}
		l := n.Join(pick(), pick(), z)
		if len(n.meshes) == 0 || r.IntN(2) == 0 {
			coil, le := span(r, 1, 16), span(r, 1e-5, 5e-3)
			m := n.AddMesh(r.IntN(3), BranchFunc(func(w float64) complex128 { return complex(coil+1, w*le) }))
			sign := float64(1 - 2*r.IntN(2))
			n.Couple(m, l, sign*span(r, 3, 30)/span(r, 0.005, 0.1))
			if m > 0 && r.IntN(3) == 0 {
				n.Share(m-1, m, Resistor(r.Float64())) // below either coil's own
			}
		}
	}
	for _, d := range doors {
		n.Probe(d)
	}
	return n
}

// power adds up what a channel's volt delivers and where it goes: drawn from
// the source, turned to heat in meshes and links, and taken by bodies, W.
func (n *Network) power(s *Solution, channel, k int) (drawn float64, spent []float64) {
	w := s.Omega[k]
	square := func(z complex128) float64 { return real(z)*real(z) + imag(z)*imag(z) }
	for i := range n.meshes {
		c := s.Current[channel][i][k]
		if n.channel[i] == channel {
			drawn += real(c)
		}
		spent = append(spent, real(n.meshes[i].Impedance(w))*square(c))
	}
	for _, m := range n.mutuals {
		a, b := s.Current[channel][m.a][k], s.Current[channel][m.b][k]
		z := m.z.Impedance(w)
		spent = append(spent, 2*real(z)*(real(a)*real(b)+imag(a)*imag(b)))
	}
	for i, l := range n.links {
		spent = append(spent, real(l.z.Impedance(w))*square(s.Flow[channel][i][k]))
	}
	for b, body := range n.bodies {
		d := body.Doors()
		z := make([]complex128, d*d)
		body.Impedance(k, w, z)
		in := make([]complex128, d)
		for i, l := range n.links {
			if int(l.from.Body) == b {
				in[l.from.Index] -= s.Flow[channel][i][k]
			}
			if int(l.to.Body) == b {
				in[l.to.Index] += s.Flow[channel][i][k]
			}
		}
		var p float64
		for i := range d {
			for j := range d {
				v := z[i*d+j] * in[j]
				p += real(v)*real(in[i]) + imag(v)*imag(in[i])
			}
		}
		spent = append(spent, p)
	}
	return drawn, spent
}
