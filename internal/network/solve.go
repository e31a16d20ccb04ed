package network

// Solution holds, for each channel driven with one volt and all others at
// rest, the flows, currents and probe pressures over the frequency grid.
type Solution struct {
	Omega    []float64        // the grid, rad/s
	Flow     [][][]complex128 // [channel][link][k], m3/s per volt
	Current  [][][]complex128 // [channel][mesh][k], A per volt
	Pressure [][][]complex128 // [channel][probe][k], Pa per volt
}

// Solve solves the network on a grid of angular frequencies (rad/s, all
// above zero).
//
// The equations of links and of meshes with their sign turned form a complex
// symmetric matrix. A mesh that shares nothing with another is eliminated
// beforehand: its current is (E - sum F U)/Zmesh. One factorisation for each
// frequency then serves every channel.
func (n *Network) Solve(omega []float64) *Solution {
	p := n.plan()
	size, grid := p.size, len(omega)
	sol := &Solution{Omega: omega}
	var flow, current, pressure []complex128
	sol.Flow, flow = cube(n.nchan, len(n.links), grid)
	sol.Current, current = cube(n.nchan, len(n.meshes), grid)
	sol.Pressure, pressure = cube(n.nchan, len(n.probes), grid)

	z := make([]complex128, p.entries)
	a := make([]complex128, size*size)
	const abreast = 3 // right-hand sides that the factors take at a time
	rhs := make([]complex128, size*(n.nchan+abreast-1))
	admittance := make([]complex128, len(n.meshes)) // of eliminated meshes
	work := newSymmetric(size)

	for k, w := range omega {
		clear(a)
		clear(rhs)
		for i, body := range n.bodies {
			if !p.silent[i] {
				body.Impedance(k, w, z[p.first[i]:p.first[i+1]])
			}
		}
		gather(a, z, p.plus, p.minus)
		for i, l := range n.links {
			a[i*size+i] += l.z.Impedance(w)
		}
		for i, m := range n.meshes {
			v := m.Impedance(w)
			if r := p.row[i]; r >= 0 {
				a[r*size+r] = -v
			} else {
				admittance[i] = reciprocal(v)
			}
		}
		for _, m := range n.mutuals {
			i, j := p.row[m.a], p.row[m.b]
			a[max(i, j)*size+min(i, j)] -= m.z.Impedance(w)
		}
		n.push(p, a, rhs, admittance)
		work.factor(a)
		for c := 0; c < n.nchan; c += abreast {
			x := rhs[c*size : (c+abreast)*size]
			work.solve(a, x[:size], x[size:2*size], x[2*size:])
		}
		for c := range n.nchan {
			x := rhs[c*size : (c+1)*size]
			scatter(flow[c*len(n.links)*grid:], x[:len(n.links)], grid, k)
			for i := range p.heard {
				h := &p.heard[i]
				pressure[(c*len(p.heard)+i)*grid+k] = h.of(z, x)
			}
			n.currents(current[c*len(n.meshes)*grid+k:], p, c, grid, x, admittance)
		}
	}
	return sol
}

// The loops below stand in functions that call nothing: Go compiles a loop
// that shares its function with calls to slow WebAssembly.

// gather adds up the entries of the bodies' matrices z in the matrix a.
func gather(a, z []complex128, plus, minus []move) {
	for _, m := range plus {
		a[m.to] += z[m.from]
	}
	for _, m := range minus {
		a[m.to] -= z[m.from]
	}
}

// scatter writes x into column k of an array of rows of length grid.
func scatter(out, x []complex128, grid, k int) {
	for i, v := range x {
		out[i*grid+k] = v
	}
}

// of returns the sum of entries z times flows x.
func (s *sum) of(z, x []complex128) complex128 {
	var total complex128
	for _, t := range s.plus {
		total += z[t.from] * x[t.to]
	}
	for _, t := range s.minus {
		total -= z[t.from] * x[t.to]
	}
	return total
}

// push adds the motors and sources to the matrix and the right-hand sides.
func (n *Network) push(p *plan, a, rhs, admittance []complex128) {
	for i := range n.meshes {
		if r, c := p.row[i], n.channel[i]; r >= 0 && c >= 0 {
			rhs[c*p.size+r] = -1
		}
	}
	for i := range n.motors {
		m := &n.motors[i]
		f := m.factor
		if r := p.row[m.mesh]; r >= 0 {
			a[r*p.size+int(m.link)] -= complex(f, 0) // r lies below every link
		} else if c := n.channel[m.mesh]; c >= 0 {
			y := admittance[m.mesh]
			rhs[c*p.size+int(m.link)] += complex(f*real(y), f*imag(y))
		}
	}
	for i := range p.damped {
		m := &p.damped[i]
		y := admittance[m.mesh]
		a[m.to] += complex(m.factor*real(y), m.factor*imag(y))
	}
}

// currents writes the mesh currents that go with the solution x of channel c
// into every grid-th place of out.
func (n *Network) currents(out []complex128, p *plan, c, grid int, x, admittance []complex128) {
	for i, r := range p.row {
		v := complex(0, 0)
		switch {
		case r >= 0:
			v = x[r]
		case n.channel[i] == c:
			v = admittance[i]
		}
		out[i*grid] = v
	}
	for i := range n.motors {
		if m := &n.motors[i]; p.row[m.mesh] < 0 {
			v := x[m.link]
			out[int(m.mesh)*grid] -= complex(m.factor*real(v), m.factor*imag(v)) * admittance[m.mesh]
		}
	}
}

// cube allocates a [i][j][k] array in one block, which it returns as well.
func cube(i, j, k int) ([][][]complex128, []complex128) {
	flat := make([]complex128, i*j*k)
	out := make([][][]complex128, i)
	for a := range out {
		out[a] = make([][]complex128, j)
		for b := range out[a] {
			from := (a*j + b) * k
			out[a][b] = flat[from : from+k : from+k]
		}
	}
	return out, flat
}
