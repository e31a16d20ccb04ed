package alignment

import "math"

// Name is the short name of a vented alignment, as the literature writes it.
type Name string

// The vented alignments. Each but the last three families asks for one Qts.
const (
	B4  Name = "B4"  // Butterworth
	BE4 Name = "BE4" // Bessel
	LR4 Name = "LR4" // Linkwitz-Riley, two Butterworth second orders in a row
	CD4 Name = "CD4" // critically damped
	QB3 Name = "QB3" // quasi-Butterworth third order, Qts below that of B4
	SC4 Name = "SC4" // sub-Chebyshev, Qts below that of B4
	C4  Name = "C4"  // Chebyshev, Qts above that of B4
)

// Names returns the vented alignments in a fixed order.
func Names() []Name { return []Name{B4, BE4, LR4, CD4, QB3, SC4, C4} }

// LongName returns what the short name stands for.
func (n Name) LongName() string { return families[n].long }

// maxRippleDB ends the Chebyshev family where nobody would build it.
const maxRippleDB = 3

// matchSlack is how far, relative, a driver's Qts may lie from what a single
// alignment asks for and still be called a match; far inside what makers hold.
const matchSlack = 0.01

// family is one named alignment: at given losses, the responses that it holds.
type family struct {
	long string
	// slack is relative; zero for families that are fitted to any Qts.
	slack float64
	// qtsRange returns the Qts that the alignment exists for.
	qtsRange func(ql float64) (lo, hi float64)
	// fit returns the member for a Qts, with the Chebyshev k if it has one.
	fit func(qts, ql float64) (Fourth, float64)
}

var families = map[Name]family{
	B4:  single("Butterworth", Butterworth4()),
	BE4: single("Bessel", Bessel4()),
	LR4: single("Linkwitz-Riley", LinkwitzRiley4()),
	CD4: single("critically damped", Critical4()),
	QB3: {
		long:     "quasi-Butterworth, third order",
		qtsRange: func(ql float64) (float64, float64) { return 0, qtsOf(Butterworth4(), ql) },
		fit: func(qts, ql float64) (Fourth, float64) {
			// Qts falls as a2 rises, about as sqrt(2)/a2.
			a2 := bisect(2+math.Sqrt2, 2+math.Sqrt2+4/qts, func(a2 float64) float64 {
				return qtsOf(QuasiButterworth3(a2), ql) - qts
			})
			return QuasiButterworth3(a2), 0
		},
	},
	SC4: {
		long: "sub-Chebyshev, fourth order",
		qtsRange: func(ql float64) (float64, float64) {
			return qtsOf(chebyshevLimit(), ql), qtsOf(Butterworth4(), ql)
		},
		fit: func(qts, ql float64) (Fourth, float64) {
			// In 1/k, which runs from 0 to 1; Qts rises with it.
			inv := bisect(1e-9, 1, func(inv float64) float64 {
				return qtsOf(Chebyshev4(1/inv), ql) - qts
			})
			return Chebyshev4(1 / inv), 1 / inv
		},
	},
	C4: {
		long: "Chebyshev, fourth order",
		qtsRange: func(ql float64) (float64, float64) {
			return qtsOf(Butterworth4(), ql), qtsOf(Chebyshev4(smallestK()), ql)
		},
		fit: func(qts, ql float64) (Fourth, float64) {
			k := bisect(smallestK(), 1, func(k float64) float64 {
				return qtsOf(Chebyshev4(k), ql) - qts
			})
			return Chebyshev4(k), k
		},
	},
}

func single(long string, f Fourth) family {
	return family{
		long:  long,
		slack: matchSlack,
		qtsRange: func(ql float64) (float64, float64) {
			q := qtsOf(f, ql)
			return q, q
		},
		fit: func(float64, float64) (Fourth, float64) { return f, 0 },
	}
}

func qtsOf(f Fourth, ql float64) float64 { return Realise(f, ql).Qts }

// smallestK returns the k at which the ripple reaches maxRippleDB.
func smallestK() float64 {
	return bisect(0.05, 0.9, func(k float64) float64 { return ChebyshevRippleDB(k) - maxRippleDB })
}

// QtsRange returns the Qts that a named alignment exists for at a leak loss,
// zero or +Inf for none; both ends are equal where there is only one. ok is
// false for an unknown name or loss.
func QtsRange(name Name, ql float64) (lo, hi float64, ok bool) {
	ql, err := checkLoss(ql)
	fam, known := families[name]
	if err != nil || !known {
		return 0, 0, false
	}
	lo, hi = fam.qtsRange(ql)
	return lo, hi, true
}
