package system

import (
	"math"

	"bootfloor/internal/job"
)

// Glance is what a search needs to know of a job: the subs alone, without the
// doors' back-action, at full drive.
type Glance struct {
	Hz    []float64
	Level [][]float64 // [seat][k] dB re 20 uPa at full drive, small-signal
	Top   [][]float64 // [seat][k] the same with every limit counted
	Code  []float64   // [k] Limit that binds
	// Speed is the highest air speed in any port over the grid, m/s; Travel
	// the highest cone travel as a share of Xmax; both at full drive.
	Speed  float64
	Travel float64
	// LoadMinOhm is the least impedance at any sub amplifier.
	LoadMinOhm float64
	// PortLengthMM lists the ports of all boxes.
	PortLengthMM []float64
}

// Glance solves the subs of a job on a grid. Nil when a finding is an error.
func (s *Solver) Glance(j job.Job, g Grid) (*Glance, []job.Finding) {
	b, _, m, found := s.assemble(j, g.Omega(), asStated, false)
	if job.HasError(found) {
		return nil, found
	}
	sol := b.net.Solve(m.omega)
	m.learnedLevel(sol.Pressure)
	l := m.limit(b, sol)
	out := &Glance{Hz: g.Hz(), Code: l.code, LoadMinOhm: math.Inf(1)}
	sub := m.channels(0, len(j.Subs))
	loss := make([]float64, len(m.omega))
	for k := range loss {
		loss[k] = 20 * math.Log10(l.share[k])
	}
	for i := range j.Car.Seats {
		level := levels(m.sum(sol.Pressure, i, sub))
		top := make([]float64, len(level))
		for k := range top {
			top[k] = level[k] + loss[k]
		}
		out.Level, out.Top = append(out.Level, level), append(out.Top, top)
	}
	for i := range j.Subs {
		for k := range m.omega {
			if x := m.subs[i].Xmax; x > 0 {
				out.Travel = math.Max(out.Travel, l.travel[i][k]/x)
			}
			if l.speed[i] != nil {
				out.Speed = math.Max(out.Speed, l.speed[i][k])
			}
		}
		load, _ := m.load(b, sol, i)
		for _, z := range load {
			out.LoadMinOhm = math.Min(out.LoadMinOhm, z)
		}
		for _, v := range b.subs[i].Vents {
			out.PortLengthMM = append(out.PortLengthMM, 1e3*v.LengthM)
		}
	}
	return out, found
}
