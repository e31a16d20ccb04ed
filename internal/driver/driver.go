// Package driver models a moving-coil loudspeaker by its small-signal
// (Thiele-Small) parameters: it completes and reconciles what a data sheet
// states, reads data sheets as pasted text, fits the parameters to measured
// impedance curves, and keeps a shelf of typical drivers.
//
// Definitions follow A. N. Thiele, "Loudspeakers in Vented Boxes", JAES 19
// (1971), R. H. Small, "Direct-Radiator Loudspeaker System Analysis", JAES 20
// (1972), and the terms of IEC 60268-22. All values inside a Driver are SI;
// a Key names a parameter in the unit that data sheets use, and is the same
// word as in the job document.
package driver

import (
	"math"

	"bootfloor/internal/air"
)

// Driver is a complete, consistent small-signal model. Every field of the
// first group is positive and finite in a Driver made by Derive or Fit.
type Driver struct {
	Name    string
	Typical bool // an invented set for a size class, not a product

	Re  float64 // DC resistance of the coil as wired, ohm
	Fs  float64 // free-air resonance, Hz
	Qes float64 // electrical Q at Fs, from Re alone
	Qms float64 // mechanical Q at Fs
	Qts float64 // total Q at Fs: 1/Qts = 1/Qes + 1/Qms
	Sd  float64 // effective piston area, m2
	Bl  float64 // force factor, T m (N/A)
	Mms float64 // moving mass with its air load, kg
	Cms float64 // suspension compliance, m/N
	Rms float64 // mechanical resistance, N s/m (kg/s)
	Vas float64 // volume of air as compliant as the suspension, m3, in the air given to Derive

	Coil Coil // what the coil adds to Re when it is held still

	// Limits and dimensions. Zero means not stated.
	Xmax    float64 // linear cone travel, one way, peak, m
	PowerW  float64 // thermal rating, W
	SizeIn  float64 // nominal size, inches
	Depth   float64 // mounting depth, m
	CutOut  float64 // diameter of the hole in the panel, m
	Outside float64 // outside diameter of the frame, m
	Volume  float64 // air that the driver displaces inside the box, m3
	Mass    float64 // whole driver, kg
	Price   float64 // in the reader's own currency

	Coils   int     // voice coils on the former, at least 1
	CoilOhm float64 // nominal impedance of one coil, ohm

	// Derived lists the parameters that were worked out, not stated, each
	// with what it was worked out from.
	Derived []Derivation
}

// Derivation tells how one parameter was come by.
type Derivation struct {
	Key  Key   // what was worked out
	From []Key // the stated values it follows from
}

// MechanicalImpedance returns Rms + jwMms + 1/(jwCms) in N s/m at the angular
// frequency w, rad/s.
func (d Driver) MechanicalImpedance(w float64) complex128 {
	return complex(d.Rms, w*d.Mms-1/(w*d.Cms))
}

// Blocked returns the electrical impedance with the cone held still, ohm.
func (d Driver) Blocked(w float64) complex128 {
	return complex(d.Re, 0) + d.Coil.Impedance(w)
}

// Impedance returns the electrical impedance in free air, ohm, at the angular
// frequency w > 0: the blocked impedance and the motional part Bl^2/Zm in
// series (Small 1972). The air load is the one that Mms holds.
func (d Driver) Impedance(w float64) complex128 {
	return d.Blocked(w) + complex(d.Bl*d.Bl, 0)/d.MechanicalImpedance(w)
}

// VasIn returns the equivalent volume in other air, m3: rho c^2 Sd^2 Cms. The
// compliance belongs to the driver, the volume to the air it is compared with.
func (d Driver) VasIn(a air.Properties) float64 {
	return a.BulkModulus() * d.Sd * d.Sd * d.Cms
}

// In returns the same driver with Vas told for other air.
func (d Driver) In(a air.Properties) Driver {
	d.Vas = d.VasIn(a)
	return d
}

// Group returns the one driver that stands for series x parallel alike in one
// box: series drivers in each string, parallel strings side by side, all
// sharing the same air. Q values and Fs stay; areas, masses, displaced volume,
// power and price add up; Re and the coil scale by series/parallel and the
// force factor by series. It panics when either count is below one.
func (d Driver) Group(series, parallel int) Driver {
	if series < 1 || parallel < 1 {
		panic("driver: Group wants at least one driver in series and in parallel")
	}
	n := float64(series * parallel)
	ratio := float64(series) / float64(parallel)
	d.Re *= ratio
	d.Coil = d.Coil.Scale(ratio)
	d.Bl *= float64(series)
	d.Mms *= n
	d.Rms *= n
	d.Cms /= n
	d.Sd *= n
	d.Vas *= n
	d.PowerW *= n
	d.Volume *= n
	d.Mass *= n
	d.Price *= n
	return d
}

// Sag returns how far gravity pulls the cone off its rest position, m, when it
// fires straight up or down: g/(2 pi Fs)^2, that is weight times compliance.
func (d Driver) Sag() float64 {
	const g = 9.80665 // m/s2, standard gravity, ISO 80000-3
	w := 2 * math.Pi * d.Fs
	return g / (w * w)
}
