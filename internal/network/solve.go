package network

// Solution holds, for each channel driven with one volt and all others at
// rest, the flows, currents and probe pressures over the frequency grid.
type Solution struct {
	Omega    []float64        // the grid, rad/s
	Flow     [][][]complex128 // [channel][link][k], m3/s per volt
	Current  [][][]complex128 // [channel][mesh][k], A per volt
	Pressure [][][]complex128 // [channel][probe][k], Pa per volt
}

// end is one end of a link at a body: flow sign s enters the body there.
type end struct {
	link int
	door int
	sign float64
}

// Solve solves the network on a grid of angular frequencies (rad/s, all
// above zero).
func (n *Network) Solve(omega []float64) *Solution {
	nl, nm, nc := len(n.links), len(n.meshes), n.nchan
	size := nl + nm
	sol := &Solution{
		Omega:    omega,
		Flow:     cube(nc, nl, len(omega)),
		Current:  cube(nc, nm, len(omega)),
		Pressure: cube(nc, len(n.probes), len(omega)),
	}
	ends := n.ends()
	z := make([][]complex128, len(n.bodies))
	for b, body := range n.bodies {
		d := body.Doors()
		z[b] = make([]complex128, d*d)
	}
	a := make([]complex128, size*size)
	rhs := make([]complex128, size*nc)
	work := newLU(size)

	for k, w := range omega {
		clear(a)
		clear(rhs)
		for b, body := range n.bodies {
			d := body.Doors()
			body.Impedance(k, w, z[b])
			for _, p := range ends[b] {
				row := a[p.link*size:]
				for _, q := range ends[b] {
					v := z[b][p.door*d+q.door]
					if p.sign == q.sign {
						row[q.link] += v
					} else {
						row[q.link] -= v
					}
				}
			}
		}
		for i, l := range n.links {
			a[i*size+i] += l.z.Impedance(w)
		}
		for i, m := range n.meshes {
			r := nl + i
			a[r*size+r] = m.Impedance(w)
			rhs[n.channel[i]*size+r] = 1
		}
		for _, m := range n.mutuals {
			v := m.z.Impedance(w)
			i, j := nl+int(m.a), nl+int(m.b)
			a[i*size+j] += v
			a[j*size+i] += v
		}
		for _, m := range n.motors {
			i, j := int(m.link), nl+int(m.mesh)
			f := complex(m.factor, 0)
			a[i*size+j] -= f
			a[j*size+i] += f
		}
		work.factor(a)
		for c := range nc {
			x := rhs[c*size : (c+1)*size]
			work.solve(a, x)
			for i := range nl {
				sol.Flow[c][i][k] = x[i]
			}
			for i := range nm {
				sol.Current[c][i][k] = x[nl+i]
			}
			for i, p := range n.probes {
				d := n.bodies[p.Body].Doors()
				row := z[p.Body][p.Index*d : (p.Index+1)*d]
				var sum complex128
				for _, e := range ends[p.Body] {
					if e.sign > 0 {
						sum += row[e.door] * x[e.link]
					} else {
						sum -= row[e.door] * x[e.link]
					}
				}
				sol.Pressure[c][i][k] = sum
			}
		}
	}
	return sol
}

// ends lists, for each body, where links enter (+1) or leave (-1) it.
func (n *Network) ends() [][]end {
	ends := make([][]end, len(n.bodies))
	for i, l := range n.links {
		ends[l.from.Body] = append(ends[l.from.Body], end{i, l.from.Index, -1})
		ends[l.to.Body] = append(ends[l.to.Body], end{i, l.to.Index, +1})
	}
	return ends
}

// cube allocates a [i][j][k] array in one block.
func cube(i, j, k int) [][][]complex128 {
	flat := make([]complex128, i*j*k)
	out := make([][][]complex128, i)
	for a := range out {
		out[a] = make([][]complex128, j)
		for b := range out[a] {
			out[a][b], flat = flat[:k:k], flat[k:]
		}
	}
	return out
}
