package advise

import (
	"fmt"
	"math"

	"bootfloor/internal/driver"
	"bootfloor/internal/job"
)

// NominalOhm returns the nominal impedance of a driver as its values hold: the
// even wiring of its coils whose load goes with Re, or else the usual value
// nearest to Re over 0.85.
func NominalOhm(d driver.Driver) float64 {
	if s, p, _, ok := d.StatedWiring(); ok && p > 0 {
		return d.CoilOhm * float64(s) / float64(p)
	}
	best := 4.0
	for _, ohm := range []float64{1, 2, 4, 8, 16} {
		if math.Abs(math.Log(d.Re/0.85/ohm)) < math.Abs(math.Log(d.Re/0.85/best)) {
			best = ohm
		}
	}
	return best
}

// usualLoad is what most amplifiers for subs like to drive, ohm: between two
// and four. Common practice, no source.
var usualLoad = math.Sqrt(2 * 4)

// equip puts count like drivers into a sub, wired evenly for a load that an
// amplifier likes, and gives it an amplifier of watts into that load.
func equip(s *job.Sub, stated job.Driver, d driver.Driver, count int, watts float64) {
	s.Driver = stated
	s.Series, s.Parallel = 1, count
	nominal := NominalOhm(d)
	load := nominal / float64(count)
	for _, w := range driver.Wirings(count, 1, nominal) {
		if math.Abs(math.Log(w.Ohm/usualLoad)) < math.Abs(math.Log(load/usualLoad)) {
			s.Series, s.Parallel, load = w.Series, w.Parallel, w.Ohm
		}
	}
	a := &s.Channel.Amplifier
	a.RatedW, a.RatedOhm = watts, load
	// Stable into half of the load it is rated for, so that the dip of the
	// coils below their nominal value is no limit. Assumed.
	a.MinOhm = math.Max(load/2, 0.5)
	// Cable for about a tenth of a volt in ten: the area grows with the current.
	if amps := math.Sqrt(watts / load); amps > 15 {
		a.CableMM2 = math.Max(a.CableMM2, 6)
	}
}

// wiringSay tells how the drivers are joined.
func wiringSay(s job.Sub) string {
	switch n := s.Series * s.Parallel; {
	case n == 1:
		return ""
	case s.Series == 1:
		return " in parallel"
	case s.Parallel == 1:
		return " in series"
	default:
		return fmt.Sprintf(" in %d strings of %d in series", s.Parallel, s.Series)
	}
}

// sized says how many drivers of which size, as "two 12-inch".
func sized(count int, sizeIn float64) string {
	words := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight"}
	n := fmt.Sprint(count)
	if count >= 0 && count < len(words) {
		n = words[count]
	}
	return fmt.Sprintf("%s %s-inch", n, trimmed(sizeIn))
}

// capital raises the first letter of a sentence.
func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
