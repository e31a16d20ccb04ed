package carpentry

import (
	"fmt"
	"math"
)

// Passage says how a box goes through an opening.
type Passage struct {
	Passes  bool
	Leads   string  // which way of the box goes first: "depth", "width" or "height"
	TurnDeg float64 // how far to turn it in the opening from square, 0 to 90
	Spare   float64 // m: how much narrower the opening could be in both directions
	Say     string  // one sentence
}

// Pass tells whether a box goes through a rectangular opening of the given
// width and height, m, with clearance to spare all round.
//
// The box is taken as its bounding cuboid and pushed straight through, along
// one of its own directions, turned in the plane of the opening as need be.
// Whether its cross-section p by q (p >= q) then fits into a by b (a >= b) is
// exact: p <= a and q <= b, or p > a and
// b >= (2 p q a + (p^2 - q^2) sqrt(p^2 + q^2 - a^2))/(p^2 + q^2)
// (Carver, Amer. Math. Monthly 64 (1957) 114; Wetzel, Math. Mag. 73 (2000)
// 204). Tilting it on the way can only help, so the answer is on the safe
// side. What lies behind the opening is not looked at.
func (b Box) Pass(width, height, clearance float64) Passage {
	if !(width > 0 && height > 0 && clearance >= 0) {
		return Passage{Say: "The opening's width and height are not known, so whether the box passes is not known either."}
	}
	a, c := math.Max(width, height)-2*clearance, math.Min(width, height)-2*clearance
	sizes := [3]float64{b.Depth, b.Width, b.Height}
	names := [3]string{"depth", "width", "height"}
	best := Passage{Spare: math.Inf(-1)}
	for i, lead := range names {
		p, q := sizes[(i+1)%3], sizes[(i+2)%3]
		if p < q {
			p, q = q, p
		}
		spare := spareAround(p, q, a, c)
		if spare > best.Spare {
			best = Passage{Passes: spare >= 0, Leads: lead, Spare: spare}
			if spare >= 0 {
				best.TurnDeg = turn(p, q, a, c) * 180 / math.Pi
			}
		}
	}
	switch {
	case !best.Passes:
		best.Say = fmt.Sprintf("The box does not go straight through the opening of %.0f x %.0f mm: it would need %.0f mm more each way, or must be tilted in.",
			width*1000, height*1000, math.Ceil(-best.Spare*1000))
	case best.TurnDeg > 0:
		best.Say = fmt.Sprintf("The box goes through the opening with its %s first, turned by %.0f degrees.", best.Leads, best.TurnDeg)
	default:
		best.Say = fmt.Sprintf("The box goes through the opening with its %s first, %.0f mm to spare.", best.Leads, math.Floor(best.Spare*1000))
	}
	return best
}

// fitsRectangle is the exact test; p >= q and a >= b.
func fitsRectangle(p, q, a, b float64) bool {
	if p <= a && q <= b {
		return true
	}
	if p <= a || b <= 0 {
		return false
	}
	s := p*p + q*q
	if a*a > s {
		return false // cannot be with p > a; guards the root against rounding
	}
	return b >= (2*p*q*a+(p*p-q*q)*math.Sqrt(s-a*a))/s
}

// spareAround returns how much the opening a by b may shrink in both
// directions, or must grow (negative), for p by q just to fit.
func spareAround(p, q, a, b float64) float64 {
	lo, hi := -(p + q), b // at lo the opening has grown beyond the section
	if !fitsRectangle(p, q, a-lo, b-lo) {
		lo -= math.Abs(a) + math.Abs(b) + p + q
	}
	for range 100 {
		mid := (lo + hi) / 2
		if fitsRectangle(p, q, a-mid, b-mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// turn returns an angle at which p by q fits into a by b: 0 where it fits
// square, else the angle in the middle of those that do, p along a at 0.
func turn(p, q, a, b float64) float64 {
	if p <= a && q <= b {
		return 0
	}
	// Turned by t it needs p cos t + q sin t <= a and p sin t + q cos t <= b.
	// The first holds from some angle on, the second up to some angle.
	d := math.Hypot(p, q)
	first := math.Atan2(q, p) + math.Acos(math.Min(1, a/d))
	last := math.Asin(math.Min(1, b/d)) - math.Atan2(q, p)
	return (first + last) / 2
}
