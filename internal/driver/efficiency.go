package driver

import (
	"math"

	"bootfloor/internal/air"
)

// referencePressure is the hearing threshold to which level refers, Pa (ISO 1683).
const referencePressure = 20e-6

// Efficiency returns the reference efficiency in half space, a share of one:
// rho (Bl Sd)^2 / (2 pi c Re Mms^2), which is also 4 pi^2 fs^3 Vas/(c^3 Qes)
// (Small 1972, part I).
func (d Driver) Efficiency(a air.Properties) float64 {
	force := d.Bl * d.Sd / d.Mms
	return a.Density * force * force / (twoPi * a.SpeedOfSound * d.Re)
}

// Sensitivity returns the level, dB re 20 uPa, at 1 m in half space for 1 W
// taken by Re, in the range where the driver works as a piston above its
// resonance: intensity = efficiency x 1 W over the half sphere.
func (d Driver) Sensitivity(a air.Properties) float64 {
	p2 := d.Efficiency(a) * a.Impedance() / twoPi
	return 10 * math.Log10(p2/(referencePressure*referencePressure))
}

// SensitivityAt returns the level, dB re 20 uPa, at 1 m in half space for a
// voltage across the terminals: V rms gives V^2/Re watts. Makers use 2.83 V.
func (d Driver) SensitivityAt(volt float64, a air.Properties) float64 {
	return d.Sensitivity(a) + 10*math.Log10(volt*volt/d.Re)
}

// EBP returns the efficiency-bandwidth product fs/Qes, Hz. Common practice, no
// source: below 50 suits sealed boxes, above 100 vented ones.
func (d Driver) EBP() float64 { return d.Fs / d.Qes }

// Displacement returns the volume the cone can move one way at Xmax, m3 (Small's VD).
func (d Driver) Displacement() float64 { return d.Sd * d.Xmax }
