package cavity

import "math"

// envelope is a symmetric matrix whose row i holds the entries from column
// first[i] to the diagonal, packed row after row. Numbering the unknowns along
// the cavity keeps it slim. (A. George and J. W. Liu, Computer Solution of
// Large Sparse Positive Definite Systems, 1981, chapter 4.)
type envelope struct {
	n     int
	first []int // first stored column of each row
	ptr   []int // a[ptr[i]+j] is entry (i, j)
	a     []float64
}

func newEnvelope(first []int) *envelope {
	n := len(first)
	e := &envelope{n: n, first: first, ptr: make([]int, n)}
	at := 0
	for i, f := range first {
		e.ptr[i] = at - f
		at += i - f + 1
	}
	e.a = make([]float64, at)
	return e
}

func (e *envelope) row(i int) []float64 {
	return e.a[e.ptr[i]+e.first[i] : e.ptr[i]+i+1]
}

// together returns how many rows from i on are worked through at once: four
// where they begin in the same column, so that what they are multiplied with is
// fetched once for all four, else one.
func (e *envelope) together(i int) int {
	if i+3 < e.n && e.first[i+3] == e.first[i] {
		return 4
	}
	return 1
}

// factor overwrites the matrix with L D L^T, L unit lower triangular below the
// diagonal and D on it, and returns the number of negative pivots: by
// Sylvester's law of inertia the number of negative eigenvalues. The first
// columns must not fall from row to row.
func (e *envelope) factor() (negative int) {
	inv := make([]float64, e.n) // 1/D
	g := make([]float64, 4*e.n) // rows of L D
	for i := 0; i < e.n; {
		fi, count, known := e.first[i], e.together(i), 0
		if count == 4 {
			known = i - fi
			r0, r1, r2, r3 := e.row(i), e.row(i+1), e.row(i+2), e.row(i+3)
			w0, w1, w2, w3 := g[:e.n], g[e.n:2*e.n], g[2*e.n:3*e.n], g[3*e.n:]
			for k := range known {
				s0, s1, s2, s3 := dot4(e.a[e.ptr[fi+k]+fi:e.ptr[fi+k]+fi+k], w0, w1, w2, w3)
				w0[k], w1[k], w2[k], w3[k] = r0[k]-s0, r1[k]-s1, r2[k]-s2, r3[k]-s3
			}
		}
		for r := range count {
			row, w := e.row(i+r), g[r*e.n:(r+1)*e.n]
			last := len(row) - 1
			for k := known; k < last; k++ {
				w[k] = row[k] - dot(w[:k], e.a[e.ptr[fi+k]+fi:e.ptr[fi+k]+fi+k])
			}
			d := row[last]
			for k, v := range w[:last] {
				l := v * inv[fi+k]
				d -= l * v
				row[k] = l
			}
			if d < 0 {
				negative++
			}
			if d == 0 {
				d = math.SmallestNonzeroFloat64 * 1e20
			}
			row[last], inv[i+r] = d, 1/d
		}
		i += count
	}
	return negative
}

// solve overwrites b with the solution, after factor.
func (e *envelope) solve(b []float64) {
	start := 0
	for start < e.n && b[start] == 0 {
		start++
	}
	for i := start; i < e.n; {
		fi, count, known := e.first[i], e.together(i), 0
		if count == 4 {
			known = i - fi
			s0, s1, s2, s3 := dot4(b[fi:i], e.row(i), e.row(i+1), e.row(i+2), e.row(i+3))
			b[i], b[i+1], b[i+2], b[i+3] = b[i]-s0, b[i+1]-s1, b[i+2]-s2, b[i+3]-s3
		}
		for r := range count {
			row := e.row(i + r)
			b[i+r] -= dot(row[known:len(row)-1], b[fi+known:i+r])
		}
		i += count
	}
	for i := range e.n {
		b[i] /= e.a[e.ptr[i]+i]
	}
	for i := e.n; i > 0; {
		count := 1
		if i >= 4 && e.first[i-4] == e.first[i-1] {
			count = 4
		}
		i -= count
		fi, known := e.first[i], 0
		if count == 4 {
			known = i - fi
		}
		for r := count - 1; r >= 0; r-- {
			row := e.row(i + r)
			axpy(-b[i+r], row[known:len(row)-1], b[fi+known:i+r])
		}
		if count == 4 {
			axpy4(-b[i], -b[i+1], -b[i+2], -b[i+3], e.row(i), e.row(i+1), e.row(i+2), e.row(i+3), b[fi:i])
		}
	}
}

// dot4 returns the products of x with the beginnings of four vectors.
func dot4(x, a, b, c, d []float64) (s, t, u, v float64) {
	n := len(x)
	a, b, c, d = a[:n], b[:n], c[:n], d[:n]
	i := 0
	for ; i+1 < n; i += 2 {
		f, g := x[i], x[i+1]
		s += f*a[i] + g*a[i+1]
		t += f*b[i] + g*b[i+1]
		u += f*c[i] + g*c[i+1]
		v += f*d[i] + g*d[i+1]
	}
	if i < n {
		f := x[i]
		s += f * a[i]
		t += f * b[i]
		u += f * c[i]
		v += f * d[i]
	}
	return s, t, u, v
}

// axpy4 adds the multiples of the beginnings of four vectors to y.
func axpy4(s, t, u, v float64, a, b, c, d, y []float64) {
	a, b, c, d = a[:len(y)], b[:len(y)], c[:len(y)], d[:len(y)]
	for i := range y {
		y[i] += s*a[i] + t*b[i] + u*c[i] + v*d[i]
	}
}

// dot is unrolled fourfold, as are those below: the compiler for WebAssembly
// has no vectors and makes every turn of a loop dear.
func dot(x, y []float64) float64 {
	y = y[:len(x)]
	var s0, s1, s2, s3 float64
	i := 0
	for ; i+4 <= len(x); i += 4 {
		s0 += x[i] * y[i]
		s1 += x[i+1] * y[i+1]
		s2 += x[i+2] * y[i+2]
		s3 += x[i+3] * y[i+3]
	}
	for ; i < len(x); i++ {
		s0 += x[i] * y[i]
	}
	return (s0 + s1) + (s2 + s3)
}

func axpy(a float64, x, y []float64) {
	y = y[:len(x)]
	i := 0
	for ; i+4 <= len(x); i += 4 {
		y[i] += a * x[i]
		y[i+1] += a * x[i+1]
		y[i+2] += a * x[i+2]
		y[i+3] += a * x[i+3]
	}
	for ; i < len(x); i++ {
		y[i] += a * x[i]
	}
}

// sparse is a symmetric matrix in compressed rows, all entries stored.
type sparse struct {
	ptr []int
	col []int
	val []float64
}

func (s *sparse) mul(x, y []float64) {
	for i := range y {
		var s0, s1 float64
		col := s.col[s.ptr[i]:s.ptr[i+1]]
		val := s.val[s.ptr[i]:][:len(col)]
		k := 0
		for ; k+4 <= len(col); k += 4 {
			s0 += val[k]*x[col[k]] + val[k+1]*x[col[k+1]]
			s1 += val[k+2]*x[col[k+2]] + val[k+3]*x[col[k+3]]
		}
		for ; k < len(col); k++ {
			s0 += val[k] * x[col[k]]
		}
		y[i] = s0 + s1
	}
}
