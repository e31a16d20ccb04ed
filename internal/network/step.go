package network

// What is done at every frequency: see plan.

// gather fills the lower triangle a from a row of parts.
//
//go:noinline
func (p *plan) gather(a, z []complex128) {
	clear(a)
	for _, m := range p.plus {
		a[m.to] += z[m.from]
	}
	for _, m := range p.minus {
		a[m.to] -= z[m.from]
	}
}

// push adds motors and sources to the matrix and the right-hand sides.
//
//go:noinline
func (p *plan) push(a, rhs, z []complex128) {
	clear(rhs)
	for _, m := range p.damped {
		y := z[m.part]
		a[m.to] += complex(m.factor*real(y), m.factor*imag(y))
	}
	for _, m := range p.drives {
		y := z[m.part]
		rhs[m.to] += complex(m.factor*real(y), m.factor*imag(y))
	}
	for _, m := range p.coupled {
		a[m.to] -= complex(m.factor, 0)
	}
	for _, i := range p.sources {
		rhs[i] = -1
	}
}

// flows writes the flows of a solution x into every grid-th place of out.
//
//go:noinline
func (p *plan) flows(out []complex128, grid int, x []complex128) {
	at := 0
	for _, r := range p.link {
		out[at] = x[r]
		at += grid
	}
}

// currents writes the mesh currents of channel c that go with the solution x
// into every grid-th place of out.
//
//go:noinline
func (p *plan) currents(out []complex128, grid, c int, x, z []complex128) {
	y := z[p.meshes:]
	for i, r := range p.row {
		v := complex(0, 0)
		if r >= 0 {
			v = x[r]
		} else if p.channel[i] == c {
			v = y[i]
		}
		out[i*grid] = v
	}
	for _, m := range p.induced {
		u, s := x[m.to], y[m.part]
		f := complex(m.factor*real(u), m.factor*imag(u))
		out[m.part*grid] -= f * s
	}
}

// pressures writes what is heard, in three channels at a time, into every
// grid-th place of out from at on: x, y and z are their solutions, w the parts.
// Of the channels only count are wanted.
//
//go:noinline
func (p *plan) pressures(out []complex128, at, grid, count int, x, y, z, w []complex128) {
	channel := len(p.heard) * grid
	y, z = y[:len(x)], z[:len(x)]
	for i := range p.heard {
		h := &p.heard[i]
		var a, b, c complex128
		for _, t := range h.plus {
			v, j := w[t.from], t.to
			a += v * x[j]
			b += v * y[j]
			c += v * z[j]
		}
		for _, t := range h.minus {
			v, j := w[t.from], t.to
			a -= v * x[j]
			b -= v * y[j]
			c -= v * z[j]
		}
		out[at] = a
		if count > 1 {
			out[at+channel] = b
		}
		if count > 2 {
			out[at+2*channel] = c
		}
		at += grid
	}
}

// over writes a branch at each frequency into every stride-th place of out.
func over(b Branch, omega []float64, out []complex128, stride int) {
	switch b := b.(type) {
	case Mechanical:
		b.over(omega, out, stride)
	case Inertance:
		for k, w := range omega {
			out[k*stride] = complex(b.Resistance, w*b.Mass)
		}
	case Resistor:
		for k := range omega {
			out[k*stride] = complex(float64(b), 0)
		}
	default:
		for k, w := range omega {
			out[k*stride] = b.Impedance(w)
		}
	}
}

// over is Impedance at each frequency.
//
//go:noinline
func (m Mechanical) over(omega []float64, out []complex128, stride int) {
	s := 1 / (m.Area * m.Area)
	for k, w := range omega {
		out[k*stride] = complex(m.Resistance*s, (w*m.Mass-1/(w*m.Compliance))*s)
	}
}

// over is Impedance at each frequency.
//
//go:noinline
func (c Chamber) over(omega []float64, out []complex128, stride int) {
	for k, w := range omega {
		out[k*stride] = complex(c.Absorption, 0) + reciprocal(complex(c.Conductance, w*c.Compliance))
	}
}

// invert replaces every stride-th of n entries by its reciprocal.
//
//go:noinline
func invert(z []complex128, stride, n int) {
	for k := range n {
		z[k*stride] = reciprocal(z[k*stride])
	}
}
