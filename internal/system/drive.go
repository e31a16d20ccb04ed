package system

import (
	"math"

	"bootfloor/internal/air"
	"bootfloor/internal/driver"
	"bootfloor/internal/enclosure"
	"bootfloor/internal/filter"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
	"bootfloor/internal/power"
)

// drive is one electrical channel: what the amplifier puts out for a
// full-scale tone, and what it cannot exceed.
type drive struct {
	volts    []complex128 // rms at the amplifier, over the grid, filters and gain in
	maxVolts float64      // rms
	maxAmps  float64      // rms
}

// newDrive returns the channel's output over the grid. A full-scale tone
// brings the amplifier to its rated voltage where the filters pass it; the
// channel's gain is counted from there.
func newDrive(c job.Channel, omega []float64) (drive, []job.Finding) {
	chain, found := filter.FromJob(c)
	d := drive{
		maxVolts: power.MaxVolts(c.Amplifier),
		maxAmps:  power.MaxAmps(c.Amplifier),
	}
	d.volts = chain.Response(omega)
	for i := range d.volts {
		d.volts[i] *= complex(d.maxVolts, 0)
	}
	return d, found
}

// electrical is the mesh of an amplifier channel: its output resistance, the
// cable there and back, the coil.
type electrical struct {
	source float64 // ohm
	re     float64 // ohm
	coil   driver.Coil
}

// Impedance implements network.Branch.
func (e electrical) Impedance(w float64) complex128 {
	return complex(e.source+e.re, 0) + e.coil.Impedance(w)
}

var _ network.Branch = electrical{}

// newUnit turns a driver, alone or several alike, into the moving unit of a
// box.
func newUnit(d driver.Driver, series, parallel int, amp job.Amplifier, channel int) enclosure.Unit {
	g := d.Group(max(series, 1), max(parallel, 1))
	return enclosure.Unit{
		Mass: g.Mms, Compliance: g.Cms, Resistance: g.Rms, Area: g.Sd, Bl: g.Bl,
		Electrical: electrical{source: amp.OutputOhm + power.CableOhm(amp), re: g.Re, coil: g.Coil},
		Channel:    channel,
		Series:     max(series, 1), Parallel: max(parallel, 1),
		Coils: electrical{re: g.Re, coil: g.Coil},
	}
}

// properties returns the air of a job.
func properties(a job.Air) (air.Properties, error) {
	return air.New(air.State{TemperatureC: a.TemperatureC, HumidityPct: a.HumidityPct, PressurePa: a.PressurePa})
}

// amplitude turns an rms phasor of volume velocity into a peak travel, m.
func amplitude(u complex128, omega, area float64) float64 {
	return math.Sqrt2 * math.Hypot(real(u), imag(u)) / (omega * area)
}
