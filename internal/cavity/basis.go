package cavity

import "math"

// gauss returns the n Gauss-Legendre abscissae and weights on [-1, 1], by
// Newton's method on P_n from Tricomi's starting values (Abramowitz and
// Stegun, Handbook of Mathematical Functions, 1964, 25.4.29).
func gauss(n int) (x, w []float64) {
	x, w = make([]float64, n), make([]float64, n)
	for i := range x {
		t := math.Cos(math.Pi * (float64(n-i) - 0.25) / (float64(n) + 0.5))
		var dp float64
		for range 100 {
			p, d := legendre(n, t)
			dp = d
			step := p / d
			t -= step
			if math.Abs(step) < 1e-15 {
				break
			}
		}
		x[i], w[i] = t, 2/((1-t*t)*dp*dp)
	}
	return x, w
}

// legendre returns P_n(t) and its derivative for |t| < 1.
func legendre(n int, t float64) (p, dp float64) {
	if n == 0 {
		return 1, 0
	}
	p0, p1 := 1.0, t
	d0, d1 := 0.0, 1.0
	for k := 2; k <= n; k++ {
		f := float64(k)
		p0, p1 = p1, ((2*f-1)*t*p1-(f-1)*p0)/f
		d0, d1 = d1, d0+(2*f-1)*p0
	}
	return p1, d1
}

// lobatto returns the p+1 Gauss-Lobatto points on [-1, 1]: the ends and the
// zeros of P_p', the well-conditioned nodes for Lagrange functions.
func lobatto(p int) []float64 {
	x := make([]float64, p+1)
	x[0], x[p] = -1, 1
	for i := 1; i < p; i++ {
		t := -math.Cos(math.Pi * float64(i) / float64(p))
		for range 100 {
			q, dq := legendre(p, t)
			// (1-t^2) P'' = 2 t P' - p(p+1) P
			ddq := (2*t*dq - float64(p*(p+1))*q) / (1 - t*t)
			step := dq / ddq
			t -= step
			if math.Abs(step) < 1e-15 {
				break
			}
		}
		x[i] = t
	}
	return x
}

// lagrange fills val and der with the Lagrange functions on the given nodes,
// and their derivatives, at t.
func lagrange(nodes []float64, t float64, val, der []float64) {
	for a := range nodes {
		v, d := 1.0, 0.0
		for k := range nodes {
			if k == a {
				continue
			}
			r := 1 / (nodes[a] - nodes[k])
			d = d*(t-nodes[k])*r + v*r
			v *= (t - nodes[k]) * r
		}
		val[a], der[a] = v, d
	}
}

// parity of a mode about the centre plane.
type parity int

const (
	even parity = iota
	odd
)

// basis1 is a set of functions of one cross-section coordinate, piecewise
// polynomial over layers, each layer mapped to t in [-1, 1].
type basis1 struct {
	layers int
	top    int // highest polynomial degree
	// grade is the degree of each function as a share of what its layer has
	// room for, so that products can be cut at a total degree.
	grade []float64
	// eval fills the values and the t-derivatives of all functions in a layer.
	eval func(layer int, t float64, val, der []float64)
}

func (b *basis1) n() int { return len(b.grade) }

// legendreBasis is the orthonormal Legendre set of degrees 0 to p on a single
// layer, stepping by step from first (2 keeps one parity).
func legendreBasis(p, first, step int) *basis1 {
	b := &basis1{layers: 1, top: p}
	norm := make([]float64, p+1)
	for k := range norm {
		norm[k] = math.Sqrt(float64(2*k+1) / 2)
	}
	for k := first; k <= p; k += step {
		b.grade = append(b.grade, float64(k)/float64(p))
	}
	b.eval = func(_ int, t float64, val, der []float64) {
		p0, p1, d0, d1 := 0.0, 1.0, 0.0, 0.0
		for k := range norm {
			if k >= first && (k-first)%step == 0 {
				i := (k - first) / step
				val[i], der[i] = p1*norm[k], d1*norm[k]
			}
			f := float64(k + 1)
			p0, p1 = p1, ((2*f-1)*t*p1-(f-1)*p0)/f
			d0, d1 = d1, d0+(2*f-1)*p0
		}
	}
	return b
}

// inLayer grades a function of degree k in a layer of highest degree p.
func inLayer(k, p int) float64 { return float64(k) / float64(p+1) }

// addBubbles appends the bubbles of degrees 2 to p in one layer, and returns
// the number of the first.
func (b *basis1) addBubbles(p int) int {
	at := b.n()
	b.top = max(b.top, p)
	for k := 2; k <= p; k++ {
		b.grade = append(b.grade, inLayer(k, p))
	}
	return at
}

// layeredBasis is the continuous hierarchical set on several layers: hats at
// the layer lines and integrated Legendre bubbles of degrees 2 to p[layer]
// inside (B. Szabo and I. Babuska, Finite Element Analysis, 1991).
func layeredBasis(p []int) *basis1 {
	b := &basis1{layers: len(p), grade: make([]float64, len(p)+1)}
	var at []int
	for _, top := range p {
		at = append(at, b.addBubbles(top))
	}
	b.eval = func(layer int, t float64, val, der []float64) {
		clear(val)
		clear(der)
		val[layer], der[layer] = (1-t)/2, -0.5
		val[layer+1], der[layer+1] = (1+t)/2, 0.5
		bubbles(p[layer], t, val[at[layer]:], der[at[layer]:])
	}
	return b
}

// foldedBasis is layeredBasis on the right-hand half of the section, layer 0
// reaching across the centre plane with functions of one parity only.
func foldedBasis(p []int, par parity) *basis1 {
	b := &basis1{layers: len(p), top: p[0]}
	for range p {
		b.grade = append(b.grade, inLayer(int(par), p[0]))
	}
	// Bubbles of the centre layer have the parity of their degree.
	for k := 2 + int(par); k <= p[0]; k += 2 {
		b.grade = append(b.grade, inLayer(k, p[0]))
	}
	at := []int{b.layers}
	for _, top := range p[1:] {
		at = append(at, b.addBubbles(top))
	}
	v, d := make([]float64, p[0]), make([]float64, p[0])
	b.eval = func(layer int, t float64, val, der []float64) {
		clear(val)
		clear(der)
		if layer > 0 {
			val[layer-1], der[layer-1] = (1-t)/2, -0.5
			val[layer], der[layer] = (1+t)/2, 0.5
			bubbles(p[layer], t, val[at[layer]:], der[at[layer]:])
			return
		}
		val[0], der[0] = 1, 0
		if par == odd {
			val[0], der[0] = t, 1
		}
		bubbles(p[0], t, v, d)
		for i, k := at[0], 2+int(par); k <= p[0]; i, k = i+1, k+2 {
			val[i], der[i] = v[k-2], d[k-2]
		}
	}
	return b
}

// bubbles fills the integrated Legendre functions of degrees 2 to p,
// (P_k - P_{k-2}) / sqrt(2(2k-1)), and their derivatives at t.
func bubbles(p int, t float64, val, der []float64) {
	pp, p0, p1 := 1.0, 1.0, t
	for k := 2; k <= p; k++ {
		f := float64(k)
		pp, p0, p1 = p0, p1, ((2*f-1)*t*p1-(f-1)*p0)/f
		s := 1 / math.Sqrt(2*(2*f-1))
		val[k-2] = (p1 - pp) * s
		der[k-2] = (2*f - 1) * p0 * s
	}
}

// moments holds the integrals over one layer of products of two functions
// u_i, u_j of a basis, row by row: m00 = int u u, m01 = int u u', e01 = int u t
// u', m11 = int u' u', e11 = int u' t u', ee11 = int t u' t u'.
type moments struct {
	m00, m01, e01, m11, e11, ee11 []float64
}

func (b *basis1) moments(layer int) moments {
	n := b.n()
	mk := func() []float64 { return make([]float64, n*n) }
	m := moments{mk(), mk(), mk(), mk(), mk(), mk()}
	x, w := gauss(b.top + 2)
	v, d := make([]float64, n), make([]float64, n)
	for q, t := range x {
		b.eval(layer, t, v, d)
		for i := range n {
			for j := range n {
				k := i*n + j
				m.m00[k] += w[q] * v[i] * v[j]
				m.m01[k] += w[q] * v[i] * d[j]
				m.e01[k] += w[q] * v[i] * t * d[j]
				m.m11[k] += w[q] * d[i] * d[j]
				m.e11[k] += w[q] * d[i] * t * d[j]
				m.ee11[k] += w[q] * t * d[i] * t * d[j]
			}
		}
	}
	return m
}

// layerMoments returns the moments of every layer.
func (b *basis1) layerMoments() []moments {
	out := make([]moments, b.layers)
	for l := range out {
		out[l] = b.moments(l)
	}
	return out
}

// overlap returns the sum over the layers of |int u_i u_j|, row by row: zero
// where two functions do not meet, or are orthogonal in every layer.
func (b *basis1) overlap() []float64 {
	out := make([]float64, b.n()*b.n())
	for _, m := range b.layerMoments() {
		for k, v := range m.m00 {
			out[k] += math.Abs(v)
		}
	}
	return out
}
