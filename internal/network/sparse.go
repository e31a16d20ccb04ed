package network

// sparse factorises a complex symmetric matrix of known pattern as L D L^T in
// the order given, without exchanging rows, and touches only what is or becomes
// other than zero: what that is is worked out once for all frequencies. Of the
// matrices of usual boxes in a car it multiplies a third of what a dense
// factorisation does. A pivot that is small against its column makes it give
// up, and the caller turns to symmetric (threshold pivoting, I. S. Duff and
// J. K. Reid, ACM Trans. Math. Softw. 9 (1983) 302); about one frequency in
// twenty does, where the reactances of a chamber and its port cancel.
type sparse struct {
	n        int
	d        []complex128 // inverse of D
	lower    []entry      // of L below its diagonal, by columns
	columns  []column
	products []product
	begin    int // the first entry of lower that meets a right-hand side
}

// entry is a place of the matrix: at is row*n + col, mirror is col*n + row.
type entry struct{ row, col, at, mirror int }

// product takes the product of two entries from a third.
type product struct{ to, left, right int }

// column is where the entries and the products of one column end.
type column struct{ entries, products int }

// steady is the least pivot, as a share of the largest entry below it, that is
// taken without an exchange: it bounds what rounding can grow by in a step.
const steady = 0.1

// newSparse plans for a matrix of n rows. filled holds n*n marks of which the
// lower triangle counts; it is overwritten. Rows of right-hand sides above
// first are zero.
func newSparse(n, first int, filled []bool) *sparse {
	s := &sparse{n: n, d: make([]complex128, n)}
	for k := range n {
		from := len(s.lower)
		if k == first {
			s.begin = from
		}
		for i := k + 1; i < n; i++ {
			if filled[i*n+k] {
				s.lower = append(s.lower, entry{i, k, i*n + k, k*n + i})
			}
		}
		for _, i := range s.lower[from:] {
			for _, j := range s.lower[from:] {
				if j.row <= i.row {
					filled[i.row*n+j.row] = true
					s.products = append(s.products, product{i.row*n + j.row, i.at, j.mirror})
				}
			}
		}
		s.columns = append(s.columns, column{len(s.lower), len(s.products)})
	}
	return s
}

// factor overwrites the lower triangle of a with L and tells whether every
// pivot was large enough; where not, a is of no further use. The upper triangle
// is scratch.
//
//go:noinline
func (s *sparse) factor(a []complex128) bool {
	n, at, done := s.n, 0, 0
	for k, end := range s.columns {
		pivot := a[k*n+k]
		most := tiny
		entries := s.lower[at:end.entries]
		for i := range entries {
			if v := abs1(a[entries[i].at]); v > most {
				most = v
			}
		}
		if !(abs1(pivot) >= steady*most) {
			return false
		}
		inv := reciprocal(pivot)
		s.d[k] = inv
		for i := range entries {
			e := &entries[i]
			v := a[e.at]
			a[e.mirror] = v
			a[e.at] = v * inv
		}
		for _, p := range s.products[done:end.products] {
			a[p.to] -= a[p.left] * a[p.right]
		}
		at, done = end.entries, end.products
	}
	return true
}

// solve overwrites x, three right-hand sides side by side, each of n rows, with
// their solutions.
//
//go:noinline
func (s *sparse) solve(a, x, y, z []complex128) {
	y, z = y[:len(x)], z[:len(x)]
	forward := s.lower[s.begin:]
	for i := range forward {
		e := &forward[i]
		v, k, r := a[e.at], e.col, e.row
		x[r] -= v * x[k]
		y[r] -= v * y[k]
		z[r] -= v * z[k]
	}
	for k, d := range s.d[:len(x)] {
		x[k] *= d
		y[k] *= d
		z[k] *= d
	}
	for i := len(s.lower) - 1; i >= 0; i-- {
		e := &s.lower[i]
		v, k, r := a[e.at], e.col, e.row
		x[k] -= v * x[r]
		y[k] -= v * y[r]
		z[k] -= v * z[r]
	}
}
