package filter

import (
	"math"
	"math/cmplx"
	"testing"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.12g, want %.12g within %g", what, got, want, tol)
	}
}

func mustPoles(t *testing.T, s Shape, n int) []Pole {
	t.Helper()
	p, err := Poles(s, n)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Quality of each Butterworth section: the tables of Zverev, Handbook of
// Filter Synthesis (1967), from memory, and recomputed.
func TestButterworthQ(t *testing.T) {
	for n, want := range map[int][]float64{
		1: {0},
		2: {.707107},
		3: {0, 1},
		4: {.541196, 1.306563},
		5: {0, .618034, 1.618034},
		6: {.517638, .707107, 1.931852},
		7: {0, .554958, .801938, 2.24698},
		8: {.509796, .601345, .899976, 2.562915},
	} {
		got := mustPoles(t, Butterworth, n)
		if len(got) != len(want) {
			t.Fatalf("order %d: %d sections", n, len(got))
		}
		for i, p := range got {
			near(t, "Q", p.Q, want[i], 1e-6)
			near(t, "F0", p.F0, 1, 0)
		}
	}
}

// Bessel sections with the 3 dB corner at 1: scipy.signal.bessel(n, 1,
// analog=True, norm='mag'), a general-purpose library.
func TestBesselSections(t *testing.T) {
	for n, want := range map[int][]Pole{
		2: {{1.2720, .5774}},
		3: {{1.3227, 0}, {1.4476, .6910}},
		4: {{1.4302, .5219}, {1.6034, .8055}},
		5: {{1.5023, 0}, {1.5563, .5635}, {1.7554, .9165}},
		6: {{1.6039, .5103}, {1.6892, .6112}, {1.9047, 1.0233}},
		7: {{1.684368, 0}, {1.716356, .532356}, {1.822417, .660821}, {2.049491, 1.126258}},
		8: {{1.778466, .505991}, {1.832093, .559609}, {1.953196, .710852}, {2.188726, 1.225669}},
	} {
		got := mustPoles(t, Bessel, n)
		if len(got) != len(want) {
			t.Fatalf("order %d: %d sections", n, len(got))
		}
		for i, p := range got {
			near(t, "F0", p.F0, want[i].F0, 1e-4)
			near(t, "Q", p.Q, want[i].Q, 1e-4)
		}
	}
}

// Poles of the delay-normalised filter: the published tables (for instance
// Zverev), and scipy.signal.bessel with norm='delay'.
func TestBesselPolynomialRoots(t *testing.T) {
	for _, want := range [][]complex128{
		{complex(-1.5, .866025)},
		{complex(-2.322185, 0), complex(-1.838907, 1.754381)},
		{complex(-2.896211, .867234), complex(-2.103789, 2.657418)},
	} {
		n := 0
		for _, w := range want {
			n++
			if imag(w) != 0 {
				n++
			}
		}
		for _, w := range want {
			best := math.Inf(1)
			for _, r := range roots(reverseBessel(n)) {
				best = math.Min(best, cmplx.Abs(r-w))
			}
			near(t, "distance to the tabulated root", best, 0, 1e-6)
		}
	}
}

// The root finder against the one property that defines roots: the product of
// the factors is the polynomial again.
func TestRootsRebuildPolynomial(t *testing.T) {
	for n := 1; n <= MaxOrder; n++ {
		poly := reverseBessel(n)
		product := []complex128{1}
		for _, r := range roots(poly) {
			next := make([]complex128, len(product)+1)
			for i, c := range product {
				next[i] -= c * r
				next[i+1] += c
			}
			product = next
		}
		for k, c := range product {
			near(t, "coefficient", real(c)/poly[k], 1, 1e-11)
			near(t, "imaginary part", imag(c)/poly[k], 0, 1e-11)
		}
	}
}

func TestPolesRefusals(t *testing.T) {
	for _, bad := range []struct {
		s Shape
		n int
	}{{Butterworth, 0}, {Butterworth, 9}, {LinkwitzRiley, 3}, {"elliptic", 2}, {Bessel, -1}} {
		if _, err := Poles(bad.s, bad.n); err == nil {
			t.Errorf("%s order %d accepted", bad.s, bad.n)
		}
	}
}
