package alignment

import "math"

// Fourth is a fourth-order high-pass with unit natural frequency,
// s^4/(s^4 + A1 s^3 + A2 s^2 + A3 s + 1).
type Fourth struct {
	A1, A2, A3 float64
}

// fromPairs returns the high-pass whose low-pass prototype has two pairs of
// poles at -re +- j im. Turning low-pass into high-pass (s to 1/s) reverses
// the order of the coefficients, so what stands at s^3 in the prototype is A3.
func fromPairs(re1, im1, re2, im2 float64) Fourth {
	b1, c1 := 2*re1, re1*re1+im1*im1
	b2, c2 := 2*re2, re2*re2+im2*im2
	s3, s2, s1, s0 := b1+b2, c1+c2+b1*b2, b1*c2+b2*c1, c1*c2
	w := math.Pow(s0, 0.25)
	return Fourth{A1: s1 / (w * w * w), A2: s2 / (w * w), A3: s3 / w}
}

// Real parts of Butterworth's four poles; the imaginary parts are the same two
// swapped.
var (
	buttSmall = math.Sin(math.Pi / 8)
	buttLarge = math.Cos(math.Pi / 8)
)

// Butterworth4 is maximally flat in level.
func Butterworth4() Fourth { return fromPairs(buttSmall, buttLarge, buttLarge, buttSmall) }

// Bessel4 is maximally flat in delay as a low-pass prototype (Thomson 1949):
// the reverse Bessel polynomial s^4 + 10 s^3 + 45 s^2 + 105 s + 105, turned.
func Bessel4() Fourth {
	w := math.Pow(105, 0.25)
	return Fourth{A1: 105 / (w * w * w), A2: 45 / (w * w), A3: 10 / w}
}

// LinkwitzRiley4 is two second-order Butterworth high-passes in a row.
func LinkwitzRiley4() Fourth {
	return Fourth{A1: 2 * math.Sqrt2, A2: 4, A3: 2 * math.Sqrt2}
}

// Critical4 has four equal real poles: no overshoot at all.
func Critical4() Fourth { return Fourth{A1: 4, A2: 6, A3: 4} }

// QuasiButterworth3 is the family |G|^2 = w^8/(w^8 + B^2 w^2 + 1) (Thiele,
// Proc. IREE 22 (1961) 487). Its parameter is a2, from 2 + sqrt(2), where it
// is Butterworth4, upward.
func QuasiButterworth3(a2 float64) Fourth {
	// |G|^2 has no w^6 term: a1^2 = 2 a2. No w^4 term: a2^2 + 2 = 2 a1 a3.
	a1 := math.Sqrt(2 * a2)
	return Fourth{A1: a1, A2: a2, A3: (a2*a2 + 2) / (2 * a1)}
}

// Chebyshev4 is the family whose poles are Butterworth's with their real parts
// times k. Below 1 the response ripples evenly (C4); at 1 it is Butterworth4;
// above 1 it is the sub-Chebyshev family (SC4) without ripple.
func Chebyshev4(k float64) Fourth {
	return fromPairs(k*buttSmall, buttLarge, k*buttLarge, buttSmall)
}

// chebyshevLimit is the end of the sub-Chebyshev family, k to infinity: two
// double real poles.
func chebyshevLimit() Fourth { return fromPairs(buttSmall, 0, buttLarge, 0) }

// ChebyshevRippleDB returns the ripple of Chebyshev4, dB: 1 + 1/sinh^2(4
// atanh k), which equals 1 + K^4/(64 + 128 K + 80 K^2 + 16 K^3) with K = 1/k^2
// - 1. The coefficient 28 that is sometimes quoted for K is wrong.
func ChebyshevRippleDB(k float64) float64 {
	if k >= 1 {
		return 0
	}
	s := math.Sinh(4 * math.Atanh(k))
	return decibels(1 + 1/(s*s))
}

// powers returns the coefficients of w^6, w^4 and w^2 in the denominator of
// |G|^2.
func (f Fourth) powers() (p6, p4, p2 float64) {
	return f.A1*f.A1 - 2*f.A2, f.A2*f.A2 + 2 - 2*f.A1*f.A3, f.A3*f.A3 - 2*f.A2
}

// Power returns |G|^2 at a frequency in units of the natural frequency.
func (f Fourth) Power(w float64) float64 {
	p6, p4, p2 := f.powers()
	x := 1 / (w * w)
	return 1 / (1 + x*(p6+x*(p4+x*(p2+x))))
}

// At returns G(jw).
func (f Fourth) At(w float64) complex128 {
	w2 := w * w
	den := complex(w2*w2-f.A2*w2+1, w*(f.A3-f.A1*w2))
	return complex(w2*w2, 0) / den
}

// Frequency returns the highest frequency, in units of the natural frequency,
// at which the level is levelDB (negative).
func (f Fourth) Frequency(levelDB float64) float64 {
	g := math.Pow(10, levelDB/10)
	// In x = w^2: (1/g - 1) x^4 = p6 x^3 + p4 x^2 + p2 x + 1. No root lies
	// above Cauchy's bound.
	p6, p4, p2 := f.powers()
	b := 1/g - 1
	hi := math.Sqrt(1 + math.Max(math.Max(math.Abs(p6), math.Abs(p4)), math.Max(math.Abs(p2), 1))/b)
	lo := hi
	for f.Power(lo) >= g {
		hi = lo
		lo *= 0.98
	}
	return bisect(lo, hi, func(w float64) float64 { return f.Power(w) - g })
}

// PeakDB returns the largest rise above the level far up, dB; never negative.
func (f Fourth) PeakDB() float64 {
	best, at := 1.0, 0.0
	for w := 0.2; w < 20; w *= 1.02 {
		if p := f.Power(w); p > best {
			best, at = p, w
		}
	}
	if at == 0 {
		return 0
	}
	// Golden section inside the two neighbours.
	lo, hi := at/1.02, at*1.02
	const r = 0.6180339887498949
	for hi-lo > 1e-9*at {
		if a, b := hi-r*(hi-lo), lo+r*(hi-lo); f.Power(a) > f.Power(b) {
			hi = b
		} else {
			lo = a
		}
	}
	return decibels(f.Power((lo + hi) / 2))
}
