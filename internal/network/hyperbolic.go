package network

import "math/cmplx"

// wave holds cosh g and sinh g/g of a propagation constant times a length, g,
// both multiplied by the same scale so that a long lossy duct cannot overflow.
type wave struct{ cosh, sinh, scale complex128 }

// hyperbolic returns the wave functions of x = g^2. Both are even in g, so
// power series in x give them without a root or an exponential, which are what
// costs most in WebAssembly. The series is used while all its terms stay small
// enough that no digit that matters cancels: up to |g| = 3, which is a duct of
// 1 m at 160 Hz.
func hyperbolic(x complex128) wave {
	terms := 0
	switch size := abs1(x); { // the first term left out is below 2e-16
	case size < 0.012:
		terms = 4
	case size < 0.06:
		terms = 5
	case size < 0.2:
		terms = 6
	case size < 0.4:
		terms = 7
	case size < 1:
		terms = 8
	case size < 3:
		terms = 10
	case size < 9:
		terms = 14
	default:
		g := cmplx.Sqrt(x)
		e := cmplx.Exp(-g) // of the root with a positive real part
		return wave{(1 + e*e) / 2, (1 - e*e) / (2 * g), e}
	}
	c, s := complex(1, 0), complex(1, 0)
	for _, f := range factors[16-terms:] {
		re, im := real(x)*f.cosh, imag(x)*f.cosh
		c = complex(1+re*real(c)-im*imag(c), re*imag(c)+im*real(c))
		re, im = real(x)*f.sinh, imag(x)*f.sinh
		s = complex(1+re*real(s)-im*imag(s), re*imag(s)+im*real(s))
	}
	return wave{c, s, 1}
}

// factors are the ratios of successive coefficients of the two series, last
// first: 1/((2n-1) 2n) and 1/(2n (2n+1)).
var factors = func() (f [16]struct{ cosh, sinh float64 }) {
	for i := range f {
		n := float64(16 - i)
		f[i].cosh, f[i].sinh = 1/((2*n-1)*2*n), 1/(2*n*(2*n+1))
	}
	return f
}()
