package system

import (
	"math"

	"bootfloor/internal/network"
)

// Limit says what stops the level at a frequency.
type Limit int

// The limits, in the order of their codes in a curve.
const (
	NoLimit Limit = iota
	ConeTravel
	AmplifierVolts
	AmplifierAmps
	ThermalPower
	PortAirSpeed
	PassiveTravel
)

// String returns the limit in words that follow "what stops it is".
func (l Limit) String() string {
	return [...]string{
		"nothing", "the cone's travel", "the amplifier's voltage", "the amplifier's current",
		"the coil's heat", "the air speed in the port", "the passive radiator's travel",
	}[l]
}

// PortSpeedGuide is the mean peak air speed (m/s) above which a plain port is
// expected to be heard: 5 % of the speed of sound, after Small (JAES 21 (1973)
// 438), recalled. It is guidance, not a law of nature.
const PortSpeedGuide = 17

// limits holds, over the grid, what full drive asks of everything that moves,
// and the share of full drive at which the first limit is met.
type limits struct {
	travel  [][]float64 // [sub][k] peak cone travel at full drive, m
	speed   [][]float64 // [sub][k] peak air speed at full drive, m/s; nil without a port
	passive [][]float64 // [sub][k] peak travel of passive radiators, m; nil without
	share   []float64   // [k] in (0, 1], of all subs together
	code    []float64   // [k] Limit
}

// limit works out the limits of the subs, driven together at full scale while
// the doors rest. A steady tone is the test; music is kinder to the coil.
func (m *model) limit(b *built, s *network.Solution) limits {
	n := len(m.omega)
	sub := m.channels(0, len(m.job.Subs))
	l := limits{share: make([]float64, n), code: make([]float64, n)}
	for k := range l.share {
		l.share[k] = 1
		l.code[k] = float64(AmplifierVolts)
	}
	bind := func(k int, share float64, why Limit) {
		if share < l.share[k] {
			l.share[k] = share
			l.code[k] = float64(why)
		}
	}
	for i, p := range b.subs {
		d := m.subs[i]
		count := float64(max(m.job.Subs[i].Series, 1) * max(m.job.Subs[i].Parallel, 1))
		travel := make([]float64, n)
		// What hangs under its own weight has that much less to go.
		room := d.Xmax - p.SagM
		for _, c := range p.Cones {
			u := m.sum(s.Flow, int(c.Link), sub)
			for k, w := range m.omega {
				travel[k] = math.Max(travel[k], amplitude(u[k], w, c.Area))
			}
		}
		if d.Xmax > 0 {
			for k, x := range travel {
				bind(k, math.Max(room, 0.05*d.Xmax)/x, ConeTravel)
			}
		}
		l.travel = append(l.travel, travel)

		var speed []float64
		for _, v := range p.Vents {
			u := m.sum(s.Flow, int(v.Mouth), sub)
			if speed == nil {
				speed = make([]float64, n)
			}
			for k := range u {
				at := math.Sqrt2 * math.Hypot(real(u[k]), imag(u[k])) / v.Area
				speed[k] = math.Max(speed[k], at)
			}
		}
		for k, v := range speed {
			bind(k, PortSpeedGuide/v, PortAirSpeed)
		}
		l.speed = append(l.speed, speed)

		var passive []float64
		if p.Passive != nil {
			u := m.sum(s.Flow, int(*p.Passive), sub)
			passive = make([]float64, n)
			for k, w := range m.omega {
				passive[k] = amplitude(u[k], w, p.PassiveArea)
				if pr := m.job.Subs[i].Box.Passive; pr != nil && pr.XmaxMM > 0 {
					bind(k, pr.XmaxMM*1e-3/passive[k], PassiveTravel)
				}
			}
		}
		l.passive = append(l.passive, passive)

		amps := m.sum(s.Current, int(p.Mesh), sub)
		dr := m.drives[i]
		re := d.Re * float64(max(m.job.Subs[i].Series, 1)) / float64(max(m.job.Subs[i].Parallel, 1))
		for k, c := range amps {
			a := math.Hypot(real(c), imag(c))
			bind(k, dr.maxAmps/a, AmplifierAmps)
			if d.PowerW > 0 {
				bind(k, math.Sqrt(d.PowerW*count/re)/a, ThermalPower)
			}
			if v := math.Hypot(real(dr.volts[k]), imag(dr.volts[k])); v > dr.maxVolts {
				bind(k, dr.maxVolts/v, AmplifierVolts)
			}
		}
	}
	return l
}
