package driver

import "math"

// The eleven small-signal parameters obey five relations, so six independent
// ones fix the rest. All relations but that of the three Q values are products
// of powers; they are listed here with the combinations in which one parameter
// has been eliminated, so that solving for one unknown at a time always
// suffices (a test tries every subset of parameters against the rank of the
// system).

// place of each parameter in a set.
const (
	iRe = iota
	iFs
	iQes
	iQms
	iQts
	iVas
	iSd
	iBl
	iMms
	iCms
	iRms
	nSmall
)

var smallKeys = [nSmall]Key{KeyRe, KeyFs, KeyQes, KeyQms, KeyQts, KeyVas, KeySd, KeyBl, KeyMms, KeyCms, KeyRms}

func smallIndex(k Key) (int, bool) {
	for i, s := range smallKeys {
		if s == k {
			return i, true
		}
	}
	return 0, false
}

// mask is a set of parameters, one bit each.
type mask uint16

const allSmall = mask(1<<nSmall - 1)

func bit(i int) mask           { return 1 << i }
func (m mask) has(i int) bool  { return m&bit(i) != 0 }
func (m mask) all(n mask) bool { return m&n == n }

// values holds the parameters in SI, by place.
type values [nSmall]float64

// rule says that constant x product of x_i^power_i is one. With bulk set, the
// constant also holds the stiffness rho c^2 of the air to that power.
type rule struct {
	power    [nSmall]int
	constant float64
	bulk     int
	set      mask
}

func powers(constant float64, bulk int, pairs ...int) rule {
	r := rule{constant: constant, bulk: bulk}
	for i := 0; i < len(pairs); i += 2 {
		r.power[pairs[i]] = pairs[i+1]
		r.set |= bit(pairs[i])
	}
	return r
}

const twoPi = 2 * math.Pi

// Small 1972: the definitions of fs, Qms, Qes and Vas, then what follows from
// them without Mms, or without fs, or without both.
var rules = []rule{
	powers(twoPi*twoPi, 0, iFs, 2, iMms, 1, iCms, 1),
	powers(1/twoPi, 0, iQms, 1, iRms, 1, iFs, -1, iMms, -1),
	powers(1/twoPi, 0, iQes, 1, iBl, 2, iFs, -1, iMms, -1, iRe, -1),
	powers(1, -1, iVas, 1, iSd, -2, iCms, -1),
	powers(twoPi, 0, iQms, 1, iRms, 1, iFs, 1, iCms, 1),
	powers(twoPi, 0, iQes, 1, iBl, 2, iFs, 1, iCms, 1, iRe, -1),
	powers(1, 0, iQms, 2, iRms, 2, iCms, 1, iMms, -1),
	powers(1, 0, iQes, 2, iBl, 4, iCms, 1, iMms, -1, iRe, -2),
	powers(1, 0, iQes, 1, iBl, 2, iQms, -1, iRms, -1, iRe, -1),
}

// unknown returns the one parameter of the rule that known lacks.
func (r rule) unknown(known mask) (int, bool) {
	missing := r.set &^ known
	if missing == 0 || missing&(missing-1) != 0 {
		return 0, false
	}
	for i := 0; i < nSmall; i++ {
		if missing.has(i) {
			return i, true
		}
	}
	return 0, false
}

// solve returns the parameter at place i that makes the rule true.
func (r rule) solve(i int, v *values, bulk float64) float64 {
	p := r.constant
	for n := r.bulk; n < 0; n++ {
		p /= bulk
	}
	for j, e := range r.power {
		if j == i {
			continue
		}
		for ; e > 0; e-- {
			p *= v[j]
		}
		for ; e < 0; e++ {
			p /= v[j]
		}
	}
	switch r.power[i] {
	case 1:
		return 1 / p
	case -1:
		return p
	}
	return math.Pow(p, -1/float64(r.power[i]))
}

const (
	allQ   = mask(1<<iQes | 1<<iQms | 1<<iQts)
	ratioQ = mask(1<<iQts | 1<<iRe | 1<<iRms | 1<<iBl)
)

// closure returns every parameter that follows from the known ones.
func closure(known mask) mask {
	for {
		before := known
		for _, r := range rules {
			if i, ok := r.unknown(known); ok {
				known |= bit(i)
			}
		}
		if q := known & allQ; q != 0 && q != bit(iQes) && q != bit(iQms) && q != bit(iQts) {
			known |= allQ
		}
		if known.all(ratioQ) {
			known |= allQ
		}
		if known == before {
			return known
		}
	}
}

// solve completes v from the known parameters, in air of stiffness bulk. It
// returns false when the three Q values do not admit a positive solution.
func solve(v *values, known mask, bulk float64) (mask, bool) {
	for {
		before := known
		for _, r := range rules {
			if i, ok := r.unknown(known); ok {
				v[i] = r.solve(i, v, bulk)
				known |= bit(i)
			}
		}
		// 1/Qts = 1/Qes + 1/Qms.
		switch known & allQ {
		case bit(iQes) | bit(iQms):
			v[iQts] = v[iQes] * v[iQms] / (v[iQes] + v[iQms])
			known |= allQ
		case bit(iQes) | bit(iQts):
			v[iQms] = v[iQes] * v[iQts] / (v[iQes] - v[iQts])
			known |= allQ
		case bit(iQms) | bit(iQts):
			v[iQes] = v[iQms] * v[iQts] / (v[iQms] - v[iQts])
			known |= allQ
		case bit(iQts):
			// The two dampings are in the proportion Bl^2/Re to Rms.
			if known.all(ratioQ) {
				motor := v[iBl] * v[iBl] / v[iRe]
				v[iQes] = v[iQts] * (1 + v[iRms]/motor)
				v[iQms] = v[iQts] * (1 + motor/v[iRms])
				known |= allQ
			}
		}
		for i, x := range v {
			if known.has(i) && !(x > 0 && x <= math.MaxFloat64) {
				return known, false
			}
		}
		if known == before {
			return known, true
		}
	}
}
