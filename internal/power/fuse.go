package power

import (
	"fmt"
	"math"
	"sort"
)

// Caution stands beside every answer about supply wiring.
const Caution = "The fuse protects the cable and sits close to the battery (common practice: within 30 cm of cable). " +
	"Follow the vehicle maker's instructions and local rules, and have the wiring done or checked by a qualified person."

// Temperatures that ampacity is reckoned with unless told otherwise, C:
// insulation of class A (ISO 6722-1, 85 C) in a warm car.
const (
	CableInsulationC = 85
	CableAmbientC    = 40
)

// carried lists the current that two single cables with 90 C insulation carry
// at 30 C, clipped side by side to a surface (BS 7671 table 4E1A, reference
// method C, d.c., which has it from IEC 60364-5-52), A by mm2.
var carried = []struct{ area, amps float64 }{
	{1, 19}, {1.5, 25}, {2.5, 34}, {4, 46}, {6, 59}, {10, 81}, {16, 109},
	{25, 143}, {35, 176}, {50, 228}, {70, 293}, {95, 355},
}

// Ampacity returns the current that a copper cable carries for long, A, with
// insulation for insulationC at an ambient temperature of ambientC; zero where
// the ambient is too hot. No road-vehicle standard states such a table, so
// this takes the one for buildings and converts it by the heat balance of IEC
// 60287-1-1: I^2 goes with the temperature rise over the resistance at the
// working temperature. Between sizes it interpolates on logarithms; above 95
// mm2 it stays at that size's value, below 1 mm2 it falls with the area. A
// stand-in on the safe side of common practice, not a permission.
func Ampacity(areaMM2, insulationC, ambientC float64) float64 {
	if !(areaMM2 > 0 && insulationC > ambientC) {
		return 0
	}
	last := len(carried) - 1
	k := sort.Search(len(carried), func(i int) bool { return carried[i].area >= areaMM2 })
	var amps float64
	switch {
	case k == 0:
		amps = carried[0].amps * areaMM2 / carried[0].area
	case k > last:
		amps = carried[last].amps
	default:
		a, b := carried[k-1], carried[k]
		t := math.Log(areaMM2/a.area) / math.Log(b.area/a.area)
		amps = a.amps * math.Pow(b.amps/a.amps, t)
	}
	const tableC, tableAmbientC = 90, 30
	rise := (insulationC - ambientC) / (tableC - tableAmbientC)
	return amps * math.Sqrt(rise*Warm(1, tableC)/Warm(1, insulationC))
}

// Fuse is a standard rating.
type Fuse struct {
	RatingA float64
	Type    string // what to ask for
	Colour  string // of its body, where the standard gives one
}

// fuses lists ratings in use. Blade types C and E after ISO 8820-3:2015;
// bolted strip fuses after ISO 8820-5. Ratings and colours are from memory.
var fuses = []Fuse{
	{3, "blade, type C", "violet"}, {5, "blade, type C", "tan"}, {7.5, "blade, type C", "brown"},
	{10, "blade, type C", "red"}, {15, "blade, type C", "blue"}, {20, "blade, type C", "yellow"},
	{25, "blade, type C", "clear"}, {30, "blade, type C", "green"}, {40, "blade, type C", "orange"},
	{50, "large blade, type E", "red"}, {60, "large blade, type E", "blue"},
	{70, "large blade, type E", "brown"}, {80, "large blade, type E", "clear"},
	{100, "bolted strip", ""}, {125, "bolted strip", ""}, {150, "bolted strip", ""},
	{175, "bolted strip", ""}, {200, "bolted strip", ""}, {250, "bolted strip", ""},
	{300, "bolted strip", ""}, {350, "bolted strip", ""}, {400, "bolted strip", ""}, {500, "bolted strip", ""},
}

// fuseLoading is the share of its rating that a fuse carries for long without
// ageing. Common practice, no source.
const fuseLoading = 0.75

// ChooseFuse returns the smallest standard fuse that carries a lasting current
// of drawA at three quarters of its rating, provided that it is no larger than
// the cable's ampacity. Otherwise the error says which cable would do.
func ChooseFuse(drawA, areaMM2, insulationC, ambientC float64) (Fuse, error) {
	if !(drawA >= 0) || math.IsInf(drawA, 1) {
		return Fuse{}, fmt.Errorf("the current to protect is %g A; give a positive number", drawA)
	}
	limit := Ampacity(areaMM2, insulationC, ambientC)
	for _, f := range fuses {
		if f.RatingA*fuseLoading < drawA {
			continue
		}
		if f.RatingA <= limit {
			return f, nil
		}
		for _, c := range carried {
			if Ampacity(c.area, insulationC, ambientC) >= f.RatingA {
				return Fuse{}, fmt.Errorf("%.0f A needs a fuse of %g A, and a cable of %.3g mm2 may only be fused up to %.0f A; use %g mm2",
					drawA, f.RatingA, areaMM2, limit, c.area)
			}
		}
		break
	}
	return Fuse{}, fmt.Errorf("%.0f A is more than one fused cable of up to 95 mm2 carries; share it between two amplifiers with a cable and fuse each", drawA)
}
