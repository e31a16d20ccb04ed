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

func (e *envelope) add(i, j int, v float64) {
	if j > i {
		i, j = j, i
	}
	e.a[e.ptr[i]+j] += v
}

func (e *envelope) row(i int) []float64 {
	return e.a[e.ptr[i]+e.first[i] : e.ptr[i]+i+1]
}

// clone returns a copy that shares the pattern.
func (e *envelope) clone() *envelope {
	c := *e
	c.a = append([]float64(nil), e.a...)
	return &c
}

// factor overwrites the matrix with L D L^T, L unit lower triangular below the
// diagonal and D on it, and returns the number of negative pivots: by
// Sylvester's law of inertia the number of negative eigenvalues.
func (e *envelope) factor() (negative int) {
	g := make([]float64, e.n) // row i of L D
	for i := range e.n {
		fi := e.first[i]
		row := e.row(i)
		w := g[:len(row)]
		for j := fi; j < i; j++ {
			fj := e.first[j]
			lo := max(fi, fj)
			w[j-fi] = row[j-fi] - dot(w[lo-fi:j-fi], e.a[e.ptr[j]+lo:e.ptr[j]+j])
		}
		d := row[i-fi]
		for j := fi; j < i; j++ {
			l := w[j-fi] / e.a[e.ptr[j]+j]
			d -= l * w[j-fi]
			row[j-fi] = l
		}
		if d < 0 {
			negative++
		}
		if d == 0 {
			d = math.SmallestNonzeroFloat64 * 1e20
		}
		row[i-fi] = d
	}
	return negative
}

// solve overwrites b with the solution, after factor.
func (e *envelope) solve(b []float64) {
	for i := range e.n {
		fi := e.first[i]
		b[i] -= dot(e.a[e.ptr[i]+fi:e.ptr[i]+i], b[fi:i])
	}
	for i := range e.n {
		b[i] /= e.a[e.ptr[i]+i]
	}
	for i := e.n - 1; i > 0; i-- {
		fi := e.first[i]
		axpy(-b[i], e.a[e.ptr[i]+fi:e.ptr[i]+i], b[fi:i])
	}
}

// dot is unrolled fourfold: separate sums let a compiler without vectors, such
// as the one for WebAssembly, keep the multiplier busy.
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
	for i, v := range x {
		y[i] += a * v
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
		var sum float64
		for k := s.ptr[i]; k < s.ptr[i+1]; k++ {
			sum += s.val[k] * x[s.col[k]]
		}
		y[i] = sum
	}
}
