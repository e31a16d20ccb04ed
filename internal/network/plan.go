package network

// move adds or subtracts entry from of one flat array to or from entry to of
// another.
type move struct{ from, to int }

// sum is a signed sum of products, such as the pressure at a door: entries of
// the bodies' matrices times flows.
type sum struct{ plus, minus []move }

// damp adds a factor times the admittance of a mesh to entry to of the matrix.
type damp struct {
	mesh   MeshID
	to     int
	factor float64
}

// plan is what solving a network does at every frequency alike: where each
// entry of each body's matrix goes. It is worked out once.
type plan struct {
	size    int    // rows: all links, then the meshes that share something
	row     []int  // of each mesh; -1 where it is eliminated beforehand
	first   []int  // where each body's matrix begins in the flat array of all
	entries int    // and how long that array is
	silent  []bool // bodies that no link ends at
	plus    []move // from the bodies' entries to the lower triangle
	minus   []move
	damped  []damp // what eliminated meshes add to the lower triangle
	heard   []sum  // for each probe, entries times flows
}

// end is one end of a link at a body: flow enters there, or leaves.
type end struct {
	link   int
	door   int
	enters bool
}

func (n *Network) plan() *plan {
	p := &plan{size: len(n.links), row: make([]int, len(n.meshes))}
	for i := range p.row {
		p.row[i] = -1
	}
	for _, m := range n.mutuals {
		for _, i := range []MeshID{m.a, m.b} {
			if p.row[i] < 0 {
				p.row[i] = p.size
				p.size++
			}
		}
	}
	ends := make([][]end, len(n.bodies))
	for i, l := range n.links {
		ends[l.from.Body] = append(ends[l.from.Body], end{i, l.from.Index, false})
		ends[l.to.Body] = append(ends[l.to.Body], end{i, l.to.Index, true})
	}
	doors := make([]int, len(n.bodies))
	p.first = make([]int, len(n.bodies)+1)
	p.silent = make([]bool, len(n.bodies))
	for b, body := range n.bodies {
		d := body.Doors()
		doors[b] = d
		p.first[b+1] = p.first[b] + d*d
		p.silent[b] = len(ends[b]) == 0
		if _, still := body.(Still); still {
			continue
		}
		for _, i := range ends[b] {
			for _, j := range ends[b] {
				if j.link > i.link {
					continue
				}
				m := move{p.first[b] + i.door*d + j.door, i.link*p.size + j.link}
				if i.enters == j.enters {
					p.plus = append(p.plus, m)
				} else {
					p.minus = append(p.minus, m)
				}
			}
		}
	}
	p.entries = p.first[len(n.bodies)]
	for _, i := range n.motors {
		for _, j := range n.motors {
			if i.mesh == j.mesh && p.row[i.mesh] < 0 && j.link <= i.link {
				p.damped = append(p.damped, damp{i.mesh, int(i.link)*p.size + int(j.link), i.factor * j.factor})
			}
		}
	}
	for _, door := range n.probes {
		var s sum
		for _, e := range ends[door.Body] {
			m := move{p.first[door.Body] + door.Index*doors[door.Body] + e.door, e.link}
			if e.enters {
				s.plus = append(s.plus, m)
			} else {
				s.minus = append(s.minus, m)
			}
		}
		p.heard = append(p.heard, s)
	}
	return p
}
