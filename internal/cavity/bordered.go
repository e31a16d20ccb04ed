package cavity

import "math"

// bordered is a complex symmetric matrix A of n rows with right-hand sides Y as
// further rows below it: eliminating A leaves -Y A^-1 Y' in their place. Only
// the lower half is stored, real and imaginary parts apart.
//
// The factor is L D L^T without pivoting: the imaginary part of A is positive
// definite, so no pivot vanishes (N. J. Higham, Mathematics of Computation 67,
// 1998).
type bordered struct {
	n, rows int // rows with one more where that makes an even number
	re, im  []float64
	lr, li  []float64 // the factor, the right-hand sides among its rows
	dr, di  []float64 // 1/D
	tiny    float64   // pivots below it, of a lossless cavity right on a mode, are raised to it
}

func newBordered(n, sides int) bordered {
	rows := (n + sides + 1) / 2 * 2
	mk := func() []float64 { return make([]float64, rows*rows) }
	return bordered{n: n, rows: rows, re: mk(), im: mk(), lr: mk(), li: mk(), dr: make([]float64, n), di: make([]float64, n)}
}

// row returns the real and imaginary parts of a row.
func (b *bordered) row(i int) (re, im []float64) {
	return b.re[i*b.rows : (i+1)*b.rows], b.im[i*b.rows : (i+1)*b.rows]
}

// lower returns an entry of the factor; of a right-hand side, D^-1 L^-1 y.
func (b *bordered) lower(i, j int) complex128 {
	return complex(b.lr[i*b.rows+j], b.li[i*b.rows+j])
}

// eliminate works through two rows and two columns at a time, so that each
// number fetched is used twice.
func (b *bordered) eliminate() {
	n, m := b.n, b.rows
	for i := 0; i < m; i += 2 {
		p, q := b.row(i)
		u, v := b.row(i + 1)
		if i+1 >= n {
			clear(b.re[i*m+n : (i+1)*m])
			clear(b.im[i*m+n : (i+1)*m])
			clear(b.re[(i+1)*m+n : (i+2)*m])
			clear(b.im[(i+1)*m+n : (i+2)*m])
		}
		for j := 0; j < i; j += 2 {
			to := min(j, n)
			ar, ai := b.lr[j*m:][:to], b.li[j*m:][:to]
			br, bi := b.lr[(j+1)*m:][:to], b.li[(j+1)*m:][:to]
			pk, qk, uk, vk := p[:to], q[:to], u[:to], v[:to]
			var s0, t0, s1, t1, s2, t2, s3, t3 float64
			for k := range ar {
				x, y, f, g := pk[k], qk[k], uk[k], vk[k]
				c, d := ar[k], ai[k]
				s0 += c*x - d*y
				t0 += c*y + d*x
				s1 += c*f - d*g
				t1 += c*g + d*f
				c, d = br[k], bi[k]
				s2 += c*x - d*y
				t2 += c*y + d*x
				s3 += c*f - d*g
				t3 += c*g + d*f
			}
			x, y, f, g := p[j]-s0, q[j]-t0, u[j]-s1, v[j]-t1
			p[j], q[j], u[j], v[j] = x, y, f, g
			if j < n {
				c, d := b.lr[(j+1)*m+j], b.li[(j+1)*m+j]
				s2 += c*x - d*y
				t2 += c*y + d*x
				s3 += c*f - d*g
				t3 += c*g + d*f
			}
			p[j+1] -= s2
			q[j+1] -= t2
			u[j+1] -= s3
			v[j+1] -= t3
		}
		b.corner(i)
	}
}

// corner completes rows i and i+1, done with up to column i: their places on
// the diagonal and between them.
func (b *bordered) corner(i int) {
	n, m := b.n, b.rows
	p, q := b.row(i)
	u, v := b.row(i + 1)
	to := min(i, n)
	ar, ai := b.lr[i*m:][:m], b.li[i*m:][:m]
	br, bi := b.lr[(i+1)*m:][:m], b.li[(i+1)*m:][:m]
	var s0, t0, s1, t1, s2, t2 float64
	for k := range to {
		x, y, f, g, c, d := p[k], q[k], u[k], v[k], b.dr[k], b.di[k]
		lr, li := x*c-y*d, x*d+y*c
		ar[k], ai[k] = lr, li
		s0 += lr*x - li*y
		t0 += lr*y + li*x
		s1 += lr*f - li*g
		t1 += lr*g + li*f
		lr, li = f*c-g*d, f*d+g*c
		br[k], bi[k] = lr, li
		s2 += lr*f - li*g
		t2 += lr*g + li*f
	}
	p[i] -= s0
	q[i] -= t0
	f, g := u[i]-s1, v[i]-t1
	u[i], v[i] = f, g
	if i < n {
		c, d := b.invert(i, p[i], q[i])
		lr, li := f*c-g*d, f*d+g*c
		br[i], bi[i] = lr, li
		s2 += lr*f - li*g
		t2 += lr*g + li*f
	}
	u[i+1] -= s2
	v[i+1] -= t2
	if i+1 < n {
		b.invert(i+1, u[i+1], v[i+1])
	}
}

// invert keeps the inverse of pivot i.
func (b *bordered) invert(i int, re, im float64) (c, d float64) {
	if math.Abs(re)+math.Abs(im) < b.tiny {
		re, im = 0, b.tiny
	}
	s := 1 / (re*re + im*im)
	b.dr[i], b.di[i] = re*s, -im*s
	return b.dr[i], b.di[i]
}
