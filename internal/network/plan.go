package network

// move adds or subtracts entry from of one flat array to or from entry to of
// another.
type move struct{ from, to int }

// sum is a signed sum of products, such as the pressure at a door: entries of
// the bodies' matrices times flows.
type sum struct{ plus, minus []move }

// damp adds a factor times a part, or a real factor alone, to entry to.
type damp struct {
	part, to int
	factor   float64
}

// plan is what solving a network does at every frequency alike: where each
// part of it goes. It is worked out once. Parts stand in one row, see evaluate.
//
// The methods that run at every frequency call nothing but each other's like:
// Go turns a loop that shares its function with calls into slow WebAssembly,
// hence also no inlining.
type plan struct {
	size   int    // rows of the matrix: all links, then the meshes that share something
	link   []int  // row of each link, see order
	row    []int  // row of each mesh; -1 where it is eliminated beforehand
	stride int    // length of a row of parts
	first  []int  // where each body's matrix begins in it
	links  int    // where the links begin
	meshes int    // where the meshes begin
	shared int    // where what meshes share begins
	silent []bool // bodies that no link ends at

	plus, minus []move // from parts to the lower triangle
	damped      []damp // what eliminated meshes add to the lower triangle
	drives      []damp // and to the right-hand sides
	induced     []damp // what flows (to) take from the currents of meshes (part)
	coupled     []damp // motors of the meshes that remain
	sources     []int  // right-hand sides of the sources of the meshes that remain
	channel     []int  // channel of each mesh
	heard       []sum  // for each probe, parts times the solution
	sparse      *sparse
}

// end is one end of a link at a body: flow enters there, or leaves.
type end struct {
	row    int
	door   int
	enters bool
}

func (n *Network) plan() *plan {
	p := &plan{size: len(n.links), row: make([]int, len(n.meshes)), channel: n.channel}
	p.order(n)
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
	p.first = make([]int, len(n.bodies)+1)
	for b, body := range n.bodies {
		d := body.Doors()
		p.first[b+1] = p.first[b] + d*d
	}
	p.links = p.first[len(n.bodies)]
	p.meshes = p.links + len(n.links)
	p.shared = p.meshes + len(n.meshes)
	p.stride = p.shared + len(n.mutuals)
	p.bodies(n)
	for i := range n.links {
		p.plus = append(p.plus, move{p.links + i, p.at(p.link[i], p.link[i])})
	}
	for i := range n.meshes {
		if r := p.row[i]; r >= 0 {
			p.minus = append(p.minus, move{p.meshes + i, p.at(r, r)})
			if c := n.channel[i]; c >= 0 {
				p.sources = append(p.sources, c*p.size+r)
			}
		}
	}
	for i, m := range n.mutuals {
		p.minus = append(p.minus, move{p.shared + i, p.at(p.row[m.a], p.row[m.b])})
	}
	p.motors(n)
	p.sparse = newSparse(p.size, p.begin(), p.filled())
	return p
}

// begin returns the first row in which a right-hand side is not zero.
func (p *plan) begin() int {
	first := p.size
	for _, d := range p.drives {
		first = min(first, d.to%p.size)
	}
	for _, i := range p.sources {
		first = min(first, i%p.size)
	}
	return first
}

// filled marks the entries of the lower triangle that are not always zero.
func (p *plan) filled() []bool {
	out := make([]bool, p.size*p.size)
	for _, list := range [][]move{p.plus, p.minus} {
		for _, m := range list {
			out[m.to] = true
		}
	}
	for _, list := range [][]damp{p.damped, p.coupled} {
		for _, d := range list {
			out[d.to] = true
		}
	}
	return out
}

// at returns where the entry of rows i and j lies in the lower triangle.
func (p *plan) at(i, j int) int { return max(i, j)*p.size + min(i, j) }

// bodies plans what bodies add to the links that end at them, and what is
// heard at their doors.
func (p *plan) bodies(n *Network) {
	ends := make([][]end, len(n.bodies))
	for i, l := range n.links {
		ends[l.from.Body] = append(ends[l.from.Body], end{p.link[i], l.from.Index, false})
		ends[l.to.Body] = append(ends[l.to.Body], end{p.link[i], l.to.Index, true})
	}
	entry := func(b BodyID, i, j int) int { return p.first[b] + i*n.bodies[b].Doors() + j }
	p.silent = make([]bool, len(n.bodies))
	for b, body := range n.bodies {
		if _, still := body.(Still); still || len(ends[b]) == 0 {
			p.silent[b] = true
			continue
		}
		for _, i := range ends[b] {
			for _, j := range ends[b] {
				if j.row > i.row {
					continue // the upper triangle; both ends of one link do count twice
				}
				m := move{entry(BodyID(b), i.door, j.door), p.at(i.row, j.row)}
				if i.enters == j.enters {
					p.plus = append(p.plus, m)
				} else {
					p.minus = append(p.minus, m)
				}
			}
		}
	}
	for _, door := range n.probes {
		var s sum
		for _, e := range ends[door.Body] {
			m := move{entry(door.Body, door.Index, e.door), e.row}
			switch {
			case p.silent[door.Body]:
			case e.enters:
				s.plus = append(s.plus, m)
			default:
				s.minus = append(s.minus, m)
			}
		}
		p.heard = append(p.heard, s)
	}
}

// motors plans how meshes drive links and links load meshes.
func (p *plan) motors(n *Network) {
	for _, i := range n.motors {
		link, r := p.link[i.link], p.row[i.mesh]
		if r >= 0 {
			p.coupled = append(p.coupled, damp{0, p.at(r, link), i.factor})
			continue
		}
		part := p.meshes + int(i.mesh)
		for _, j := range n.motors {
			if to := p.link[j.link]; i.mesh == j.mesh && to <= link {
				p.damped = append(p.damped, damp{part, p.at(link, to), i.factor * j.factor})
			}
		}
		if c := n.channel[i.mesh]; c >= 0 {
			p.drives = append(p.drives, damp{part, c*p.size + link, i.factor})
		}
		p.induced = append(p.induced, damp{int(i.mesh), link, i.factor})
	}
}
