package power

import (
	"math"
	"sort"

	"bootfloor/internal/job"
)

const (
	// Resistivity of annealed copper at 20 C, ohm m (IEC 60028: 1/58 ohm
	// mm2/m).
	Resistivity = 1.7241e-8
	// TemperatureCoefficient of the resistance of copper at 20 C, per kelvin
	// (IEC 60028).
	TemperatureCoefficient = 0.00393
)

// Warm returns a copper resistance known at 20 C at another temperature, C.
func Warm(ohm20, temperatureC float64) float64 {
	return ohm20 * (1 + TemperatureCoefficient*(temperatureC-20))
}

// AWGAreaMM2 returns the copper area of an American wire gauge, mm2 (ASTM
// B258): d = 0.127 mm x 92^((36-n)/39). Sizes 1/0, 2/0, 3/0 and 4/0 are n = 0,
// -1, -2 and -3. Cable sold by a gauge of the same name after SAE J1127 or
// J1128 has 5 to 12 % less.
func AWGAreaMM2(n int) float64 {
	d := 0.127 * math.Pow(92, float64(36-n)/39)
	return math.Pi / 4 * d * d
}

// IdealOhmPerM returns rho/A of a solid copper bar, ohm/m at 20 C: what no
// cable reaches.
func IdealOhmPerM(areaMM2 float64) float64 { return Resistivity / (areaMM2 * 1e-6) }

// class5 lists the highest resistance of flexible plain copper conductors at
// 20 C (IEC 60228, class 5), ohm/km by nominal mm2.
var class5 = []struct{ area, ohmPerKM float64 }{
	{0.5, 39.0}, {0.75, 26.0}, {1, 19.5}, {1.5, 13.3}, {2.5, 7.98}, {4, 4.95},
	{6, 3.30}, {10, 1.91}, {16, 1.21}, {25, 0.780}, {35, 0.554}, {50, 0.386},
	{70, 0.272}, {95, 0.206}, {120, 0.161}, {150, 0.129},
}

// FlexibleOhmPerM returns the resistance to reckon with for fine-stranded
// copper cable, ohm/m at 20 C: the limit of IEC 60228 class 5. Between the
// standard's sizes its ratio to rho/A is interpolated over the logarithm of
// the area; outside them the nearest ratio holds. Cable of copper-clad
// aluminium has about half as much again and is not covered.
func FlexibleOhmPerM(areaMM2 float64) float64 {
	ratio := func(k int) float64 { return class5[k].ohmPerKM / 1000 / IdealOhmPerM(class5[k].area) }
	k := sort.Search(len(class5), func(i int) bool { return class5[i].area >= areaMM2 })
	switch {
	case k == 0:
		return ratio(0) * IdealOhmPerM(areaMM2)
	case k == len(class5):
		return ratio(k-1) * IdealOhmPerM(areaMM2)
	}
	t := math.Log(areaMM2/class5[k-1].area) / math.Log(class5[k].area/class5[k-1].area)
	return ((1-t)*ratio(k-1) + t*ratio(k)) * IdealOhmPerM(areaMM2)
}

// LoopOhm returns the resistance of a cable run out and back, ohm, each leg
// lengthM long, at a temperature in degrees Celsius.
func LoopOhm(lengthM, areaMM2, temperatureC float64) float64 {
	if !(lengthM > 0 && areaMM2 > 0) {
		return 0
	}
	return Warm(2*lengthM*FlexibleOhmPerM(areaMM2), temperatureC)
}

// CableOhm returns the resistance of the run from an amplifier to its speakers
// and back, ohm at 20 C; zero where no cable is stated.
func CableOhm(a job.Amplifier) float64 { return LoopOhm(a.CableM, a.CableMM2, 20) }

// UsualDropPct is the largest voltage drop in a supply run that the trade
// tolerates, per cent of the supply. Common practice, no source: 3 to 5.
const UsualDropPct = 4

// Drop returns the voltage lost in a run out and back at a current, V, and as
// a share of the supply, per cent.
func Drop(amps, lengthM, areaMM2, temperatureC, supplyVolts float64) (volts, pct float64) {
	volts = amps * LoopOhm(lengthM, areaMM2, temperatureC)
	if supplyVolts > 0 {
		pct = 100 * volts / supplyVolts
	}
	return volts, pct
}

// AreaForDrop returns the smallest standard area, mm2, whose run out and back
// loses at most maxPct of the supply at a current, or false where none of the
// standard sizes up to 150 mm2 does.
func AreaForDrop(amps, lengthM, temperatureC, supplyVolts, maxPct float64) (areaMM2 float64, ok bool) {
	for _, c := range class5 {
		if _, pct := Drop(amps, lengthM, c.area, temperatureC, supplyVolts); pct <= maxPct {
			return c.area, true
		}
	}
	return 0, false
}
