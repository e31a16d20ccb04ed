package network

// Solution holds, for each channel driven with one volt and all others at
// rest, the flows, currents and probe pressures over the frequency grid.
type Solution struct {
	Omega    []float64        // the grid, rad/s
	Flow     [][][]complex128 // [channel][link][k], m3/s per volt
	Current  [][][]complex128 // [channel][mesh][k], A per volt
	Pressure [][][]complex128 // [channel][probe][k], Pa per volt
}

// block is how many frequencies are evaluated at a time: few enough for what
// they need to stay in the cache.
const block = 32

// abreast is how many right-hand sides the factors take at a time.
const abreast = 3

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

	parts := make([]complex128, min(block, grid)*p.stride)
	a := make([]complex128, size*size)
	rhs := make([]complex128, size*(n.nchan+abreast-1))
	dense := newSymmetric(size) // for what the sparse factors refuse
	for k := range omega {
		if k%block == 0 {
			n.evaluate(p, k, omega[k:min(k+block, grid)], parts)
		}
		z := parts[k%block*p.stride : (k%block+1)*p.stride]
		p.gather(a, z)
		p.push(a, rhs, z)
		steady := p.sparse.factor(a)
		if !steady {
			p.gather(a, z)
			p.push(a, rhs, z)
			dense.factor(a)
		}
		for c := 0; c < n.nchan; c += abreast {
			some := rhs[c*size : (c+abreast)*size]
			x, y, v := some[:size], some[size:2*size], some[2*size:]
			if steady {
				p.sparse.solve(a, x, y, v)
			} else {
				dense.solve(a, x, y, v)
			}
			p.pressures(pressure, c*len(n.probes)*grid+k, grid, n.nchan-c, x, y, v, z)
		}
		for c := range n.nchan {
			x := rhs[c*size : (c+1)*size]
			p.flows(flow[c*len(n.links)*grid+k:], grid, x)
			p.currents(current[c*len(n.meshes)*grid+k:], grid, c, x, z)
		}
	}
	return sol
}

// evaluate writes, for each of the frequencies omega, of which the first has
// index from in the grid, one row of parts: the matrices of all bodies, the
// impedances of links, and those of meshes or, where they are eliminated
// beforehand, their admittances.
func (n *Network) evaluate(p *plan, from int, omega []float64, parts []complex128) {
	for i, body := range n.bodies {
		first, next := p.first[i], p.first[i+1]
		if p.silent[i] {
			continue
		}
		if c, ok := body.(Chamber); ok {
			c.over(omega, parts[first:], p.stride)
			continue
		}
		for k, w := range omega {
			row := parts[k*p.stride : (k+1)*p.stride]
			body.Impedance(from+k, w, row[first:next])
		}
	}
	for i, l := range n.links {
		over(l.z, omega, parts[p.links+i:], p.stride)
	}
	for i, m := range n.meshes {
		out := parts[p.meshes+i:]
		over(m, omega, out, p.stride)
		if p.row[i] < 0 {
			invert(out, p.stride, len(omega))
		}
	}
	for i, m := range n.mutuals {
		over(m.z, omega, parts[p.shared+i:], p.stride)
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
