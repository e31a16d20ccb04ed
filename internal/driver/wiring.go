package driver

import (
	"fmt"
	"math"
	"sort"
)

// Wiring is one way to join n like drivers of c like coils each so that every
// coil gets the same share: the coils of one driver in CoilSeries x CoilParallel,
// and the drivers in Series x Parallel.
type Wiring struct {
	CoilSeries, CoilParallel int
	Series, Parallel         int
	Ohm                      float64 // nominal load on the amplifier
	Say                      string  // in plain words
}

// Wirings lists every even wiring of drivers like drivers with coils like
// coils of ohm each, by rising load. Uneven ones, in which some coils would
// work harder than others, are left out, as are those that leave a coil open.
func Wirings(drivers, coils int, ohm float64) []Wiring {
	if drivers < 1 || coils < 1 || !(ohm > 0) {
		return nil
	}
	var out []Wiring
	for cs := 1; cs <= coils; cs++ {
		if coils%cs != 0 {
			continue
		}
		for s := 1; s <= drivers; s++ {
			if drivers%s != 0 {
				continue
			}
			w := Wiring{CoilSeries: cs, CoilParallel: coils / cs, Series: s, Parallel: drivers / s}
			w.Ohm = ohm * float64(w.CoilSeries*w.Series) / float64(w.CoilParallel*w.Parallel)
			w.Say = w.words(drivers, coils)
			out = append(out, w)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Ohm < out[j].Ohm })
	return out
}

func (w Wiring) words(drivers, coils int) string {
	coil := ""
	switch {
	case coils == 1:
	case w.CoilParallel == 1:
		coil = "coils of each driver in series"
	case w.CoilSeries == 1:
		coil = "coils of each driver in parallel"
	default:
		coil = fmt.Sprintf("coils of each driver in %d strings of %d", w.CoilParallel, w.CoilSeries)
	}
	group := ""
	switch {
	case drivers == 1:
	case w.Parallel == 1:
		group = "drivers in series"
	case w.Series == 1:
		group = "drivers in parallel"
	default:
		group = fmt.Sprintf("drivers in %d strings of %d in series", w.Parallel, w.Series)
	}
	say := coil
	switch {
	case coil == "" && group == "":
		say = "one driver, one coil"
	case coil == "":
		say = group
	case group != "":
		say = coil + ", " + group
	}
	return fmt.Sprintf("%s: %s Ω", say, figures(w.Ohm))
}

// CoilsAs returns the driver with its voice coils joined series x parallel,
// given that the driver's own values hold for them joined fromSeries x
// fromParallel. The cone, the suspension and every Q stay as they are; Re,
// inductance and Bl change. It panics unless both use all of d.Coils.
func (d Driver) CoilsAs(series, parallel, fromSeries, fromParallel int) Driver {
	if series*parallel != d.Coils || fromSeries*fromParallel != d.Coils || series < 1 || fromSeries < 1 {
		panic("driver: CoilsAs wants wirings that use every coil")
	}
	// Coils on one former share the core, so their inductance scales like the
	// square of the turns in series, as their resistance over strings does:
	// both go as (series in a string)/(strings) with all coils carrying alike.
	ratio := float64(series) / float64(fromSeries)
	d.Re *= ratio * ratio
	d.Coil = d.Coil.Scale(ratio * ratio)
	d.Bl *= ratio
	return d
}

// StatedWiring tells how the coils were joined when Re was measured, by
// comparing Re with the nominal impedance: Re is 0.6 to 1.05 of nominal
// (IEC 60268-5, from memory, lets the impedance fall to 0.8 of nominal; the rest
// is common practice). ok is false where the nominal impedance is unknown or nothing fits;
// perCoil is true where Re is that of one coil of several.
func (d Driver) StatedWiring() (series, parallel int, perCoil, ok bool) {
	if d.CoilOhm <= 0 {
		return 0, 0, false, false
	}
	fits := func(load float64) bool { return d.Re >= 0.6*load && d.Re <= 1.05*load }
	for _, w := range Wirings(1, d.Coils, d.CoilOhm) {
		if fits(w.Ohm) {
			return w.CoilSeries, w.CoilParallel, false, true
		}
	}
	if d.Coils > 1 && fits(d.CoilOhm) {
		return 0, 0, true, true
	}
	return 0, 0, false, false
}

// checkCoils doubts an Re that does not go with the coils.
func (d Driver) checkCoils() []Finding {
	if d.CoilOhm <= 0 {
		return nil
	}
	_, _, perCoil, ok := d.StatedWiring()
	switch {
	case perCoil:
		return []Finding{{Key: KeyRe, Level: LevelWarning, Say: fmt.Sprintf(
			"Re of %s is that of one coil of %s. State Re and Bl with all %d coils joined, in series or in parallel, as the other values were measured.",
			KeyRe.write(d.Re), KeyCoilOhm.write(d.CoilOhm), d.Coils)}}
	case !ok:
		low, high := math.Inf(1), 0.0
		for _, w := range Wirings(1, d.Coils, d.CoilOhm) {
			low, high = math.Min(low, w.Ohm), math.Max(high, w.Ohm)
		}
		load := KeyCoilOhm.write(high)
		if low < high {
			load = figures(low) + " or " + load
		}
		return []Finding{{Key: KeyRe, Level: LevelWarning, Say: fmt.Sprintf(
			"Re of %s does not go with a nominal %s: Re is usually 0.6 to 1.05 of it. Check both.", KeyRe.write(d.Re), load)}}
	}
	return nil
}
