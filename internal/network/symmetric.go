package network

import "math"

// symmetric takes what sparse gives up: it factorises a small dense complex
// symmetric matrix (equal to its transpose, not its conjugate) as L D L^T with
// the diagonal pivoting of J. R. Bunch and L. Kaufman, Math. Comp. 31 (1977)
// 163: D has blocks of one or two rows. Only the lower triangle is used, which
// halves the work of an LU; and unlike elimination in a fixed order it does not
// break down where the reactances of a chamber and a port cancel. gonum has no
// complex factorisation, and the matrices here have 3 to 20 rows, so plain loops
// over one flat slice are all that is needed.
type symmetric struct {
	n     int
	pivot []int        // row that each row was exchanged with, itself for none
	pair  []bool       // true at the first row of a block of two
	d     []complex128 // inverse of D: its diagonal
	e     []complex128 // and, at the first row of a pair, the entry beside it
	col   []complex128 // the columns being eliminated
	col2  []complex128
}

func newSymmetric(n int) *symmetric {
	flat := make([]complex128, 4*n)
	return &symmetric{
		n: n, pivot: make([]int, n), pair: make([]bool, n),
		d: flat[:n], e: flat[n : 2*n], col: flat[2*n : 3*n], col2: flat[3*n:],
	}
}

// abs1 is a cheap magnitude, good enough to choose a pivot with.
func abs1(z complex128) float64 { return math.Abs(real(z)) + math.Abs(imag(z)) }

// reciprocal returns 1/z for magnitudes far from the ends of the range of
// float64, as all here are. Go's own division guards those ends and is several
// times slower in WebAssembly.
func reciprocal(z complex128) complex128 {
	re, im := real(z), imag(z)
	s := 1 / (re*re + im*im)
	return complex(re*s, -im*s)
}

// tiny stands in for a pivot that is exactly zero, which only a network with a
// lossless loop at its own resonance can show: the answer is then large but
// finite.
const tiny = 1e-30

// threshold balances the growth of a single pivot against that of a pair:
// (1 + sqrt 17)/8.
const threshold = 0.6403882032022076

// factor overwrites the lower triangle of a (n x n, by rows) with L.
func (s *symmetric) factor(a []complex128) {
	n := s.n
	for k := 0; k < n; {
		own := abs1(a[k*n+k])
		r, most := k, 0.0
		for i := k + 1; i < n; i++ {
			if v := abs1(a[i*n+k]); v > most {
				r, most = i, v
			}
		}
		s.pivot[k], s.pair[k] = k, false
		if own < threshold*most {
			// The largest entry off the diagonal in row and column r.
			other := 0.0
			for j := k; j < r; j++ {
				if v := abs1(a[r*n+j]); v > other {
					other = v
				}
			}
			for i := r + 1; i < n; i++ {
				if v := abs1(a[i*n+r]); v > other {
					other = v
				}
			}
			switch {
			case own*other >= threshold*most*most:
			case abs1(a[r*n+r]) >= threshold*other:
				s.exchange(a, k, r)
				s.pivot[k] = r
			default: // the pair of row k and row r, brought up to k+1
				s.exchange(a, k+1, r)
				s.pivot[k+1] = r
				s.pair[k], s.pair[k+1] = true, false
			}
		}
		if s.pair[k] {
			s.eliminatePair(a, k)
			k += 2
		} else {
			s.eliminate(a, k)
			k++
		}
	}
}

// eliminate takes row and column k out of what remains.
func (s *symmetric) eliminate(a []complex128, k int) {
	n := s.n
	if abs1(a[k*n+k]) < tiny {
		a[k*n+k] = tiny
	}
	inv := reciprocal(a[k*n+k])
	s.d[k] = inv
	col := s.col[k+1 : n]
	for i := range col {
		col[i] = a[(k+1+i)*n+k]
	}
	// Two rows at a time, for the same reason as in solve.
	i := 0
	for ; i+1 < len(col); i += 2 {
		c, d := col[i], col[i+1]
		if c == 0 && d == 0 {
			continue
		}
		l, m := c*inv, d*inv
		at := (k+1+i)*n + k
		upper := a[at : at+2+i]
		lower := a[at+n : at+n+3+i]
		upper[0], lower[0] = l, m
		upper, lower = upper[1:], lower[1:]
		lower[len(upper)] -= m * d
		lower = lower[:len(upper)]
		for j, v := range col[:len(upper)] {
			upper[j] -= l * v
			lower[j] -= m * v
		}
	}
	if i < len(col) && col[i] != 0 {
		l := col[i] * inv
		at := (k+1+i)*n + k
		row := a[at : at+2+i]
		row[0] = l
		row = row[1:]
		for j, v := range col[:len(row)] {
			row[j] -= l * v
		}
	}
}

// eliminatePair takes rows and columns k and k+1 out of what remains.
func (s *symmetric) eliminatePair(a []complex128, k int) {
	n := s.n
	p, q, r := a[k*n+k], a[(k+1)*n+k], a[(k+1)*n+k+1]
	det := p*r - q*q
	if abs1(det) < tiny {
		det = tiny
	}
	inv := reciprocal(det)
	s.d[k], s.e[k], s.d[k+1] = r*inv, -q*inv, p*inv
	first, second := s.col[k+2:n], s.col2[k+2:n]
	for i := range first {
		first[i], second[i] = a[(k+2+i)*n+k], a[(k+2+i)*n+k+1]
	}
	a[(k+1)*n+k] = 0
	for i := range first {
		l := first[i]*s.d[k] + second[i]*s.e[k]
		m := first[i]*s.e[k] + second[i]*s.d[k+1]
		row := a[(k+2+i)*n+k : (k+2+i)*n+k+3+i]
		row[0], row[1] = l, m
		row = row[2:]
		for j := range row {
			row[j] -= l*first[j] + m*second[j]
		}
	}
}

// exchange swaps rows and columns i and j, i < j, of the part that remains and
// the rows of L already there.
func (s *symmetric) exchange(a []complex128, i, j int) {
	if i == j {
		return
	}
	n := s.n
	for c := range i {
		a[i*n+c], a[j*n+c] = a[j*n+c], a[i*n+c]
	}
	for c := i + 1; c < j; c++ {
		a[c*n+i], a[j*n+c] = a[j*n+c], a[c*n+i]
	}
	for r := j + 1; r < n; r++ {
		a[r*n+i], a[r*n+j] = a[r*n+j], a[r*n+i]
	}
	a[i*n+i], a[j*n+j] = a[j*n+j], a[i*n+i]
}

// solve overwrites x, three right-hand sides side by side, each of n rows, with
// their solutions. Three at a time read each entry of L once; a loop of Go in
// WebAssembly costs more in turning than in multiplying.
func (s *symmetric) solve(a []complex128, x, y, z []complex128) {
	n := s.n
	s.permute(x, y, z, false)
	from := 0 // rows above this one are zero and stay so
	for from < n && x[from] == 0 && y[from] == 0 && z[from] == 0 {
		from++
	}
	for i := from + 1; i < n; i++ {
		row := a[i*n+from : i*n+i]
		xs, ys, zs := x[from:from+len(row)], y[from:from+len(row)], z[from:from+len(row)]
		p, q, r := x[i], y[i], z[i]
		for j, v := range row {
			p -= v * xs[j]
			q -= v * ys[j]
			r -= v * zs[j]
		}
		x[i], y[i], z[i] = p, q, r
	}
	for k := max(from-1, 0); k < n; k++ {
		d := s.d[k]
		if s.pair[k] {
			e, f := s.e[k], s.d[k+1]
			x[k], x[k+1] = x[k]*d+x[k+1]*e, x[k]*e+x[k+1]*f
			y[k], y[k+1] = y[k]*d+y[k+1]*e, y[k]*e+y[k+1]*f
			z[k], z[k+1] = z[k]*d+z[k+1]*e, z[k]*e+z[k+1]*f
			k++
			continue
		}
		x[k] *= d
		y[k] *= d
		z[k] *= d
	}
	for i := n - 1; i > 0; i-- {
		row := a[i*n : i*n+i]
		xs, ys, zs := x[:len(row)], y[:len(row)], z[:len(row)]
		p, q, r := x[i], y[i], z[i]
		for j, v := range row {
			xs[j] -= v * p
			ys[j] -= v * q
			zs[j] -= v * r
		}
	}
	s.permute(x, y, z, true)
}

// permute exchanges rows in the order of the pivots, or back.
func (s *symmetric) permute(x, y, z []complex128, back bool) {
	for i := range s.n {
		k := i
		if back {
			k = s.n - 1 - i
		}
		if p := s.pivot[k]; p != k {
			x[k], x[p] = x[p], x[k]
			y[k], y[p] = y[p], y[k]
			z[k], z[p] = z[p], z[k]
		}
	}
}
