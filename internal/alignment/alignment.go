// Package alignment computes the classic alignments of the literature: box
// volume and tuning that give a loudspeaker the high-pass or band-pass of a
// named filter. Everything here is a closed-form, free-air, voltage-driven
// model with a purely resistive coil: a starting point and a yardstick for the
// full network, never a part of it.
package alignment

import (
	"fmt"
	"math"
)

// Driver is what an alignment needs to know. Qts counts the resistance of
// amplifier and cable if they are to count.
type Driver struct {
	FsHz  float64 // resonance in free air
	Qts   float64 // total Q at FsHz
	VasM3 float64 // air of the same compliance, m3
}

func (d Driver) check() error {
	for _, f := range []struct {
		name  string
		value float64
	}{{"fs", d.FsHz}, {"Qts", d.Qts}, {"Vas", d.VasM3}} {
		if !(f.value > 0) || math.IsInf(f.value, 1) {
			return fmt.Errorf("the driver's %s is %g; an alignment needs a positive number", f.name, f.value)
		}
	}
	return nil
}

// decibels returns 10 lg of a ratio of powers.
func decibels(power float64) float64 { return 10 * math.Log10(power) }

// bisect returns where f changes sign between lo and hi, which must bracket
// it, to the last bit or so.
func bisect(lo, hi float64, f func(float64) float64) float64 {
	rising := f(hi) > 0
	for range 200 {
		mid := (lo + hi) / 2
		if mid == lo || mid == hi {
			break
		}
		if (f(mid) > 0) == rising {
			hi = mid
		} else {
			lo = mid
		}
	}
	return (lo + hi) / 2
}
