package system

import (
	"fmt"
	"math"

	"bootfloor/internal/enclosure"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// Curve is one line over the grid.
type Curve struct {
	ID     string // path-like, such as level/sub/wheel
	Name   string
	Unit   string
	Values []float64
}

// Response is what a job does.
type Response struct {
	Hz     []float64
	Curves []Curve
	Seats  []string
	Subs   []SubDerived
	Cabin  CabinDerived
}

// Find returns the values of a curve, or nil.
func (r *Response) Find(id string) []float64 {
	for i := range r.Curves {
		if r.Curves[i].ID == id {
			return r.Curves[i].Values
		}
	}
	return nil
}

func (r *Response) add(id, name, unit string, values []float64) {
	r.Curves = append(r.Curves, Curve{id, name, unit, values})
}

// respond solves both worlds and writes the curves.
func (m *model) respond(cabin, free *built) *Response {
	r := &Response{}
	r.Hz = make([]float64, len(m.omega))
	for i, w := range m.omega {
		r.Hz[i] = w / (2 * math.Pi)
	}
	r.add("freq", "Frequency", "Hz", r.Hz)
	inCar := cabin.net.Solve(m.omega)
	inFree := free.net.Solve(m.omega)

	m.learnedLevel(inCar.Pressure)
	limits := m.limit(cabin, inCar)
	sub := m.channels(0, len(m.job.Subs))
	doors := m.channels(len(m.job.Subs), len(m.drives))
	u := m.flow(cabin, inCar, sub)
	for i, s := range m.job.Car.Seats {
		r.Seats = append(r.Seats, s.ID)
		ps := m.sum(inCar.Pressure, i, sub)
		pd := m.sum(inCar.Pressure, i, doors)
		both := make([]complex128, len(ps))
		for k := range both {
			both[k] = ps[k] + pd[k]
		}
		level := levels(ps)
		r.add("level/sub/"+s.ID, "Sub", "dB", level)
		r.add("level/doors/"+s.ID, "Door speakers", "dB", levels(pd))
		r.add("level/sum/"+s.ID, "Together", "dB", levels(both))
		r.add("gain/"+s.ID, "What the car adds", "dB", m.gain(ps, u))
		r.add("delay/sum/"+s.ID, "Group delay", "ms", milli(groupDelay(both, m.omega)))
		top := make([]float64, len(level))
		for k := range top {
			top[k] = level[k] + 20*math.Log10(limits.share[k])
		}
		r.add("max/sub/"+s.ID, "Most level", "dB", top)
		r.add("max_by/sub/"+s.ID, "What stops it", "", limits.code)
	}
	uf := m.flow(free, inFree, sub)
	pf := make([]complex128, len(uf))
	for k := range pf {
		pf[k] = network.HalfSpacePressure(m.air, m.omega[k], 1, uf[k])
	}
	r.add("level/free", "Without the car, 1 m", "dB", levels(pf))
	for i := range m.job.Subs {
		r.add(fmt.Sprintf("travel/sub/%d", i), "Cone travel", "mm", milli(limits.travel[i]))
		if v := limits.speed[i]; v != nil {
			r.add(fmt.Sprintf("air_speed/sub/%d", i), "Air speed in the port", "m/s", v)
		}
		if v := limits.passive[i]; v != nil {
			r.add(fmt.Sprintf("passive_travel/sub/%d", i), "Travel of the passive radiator", "mm", milli(v))
		}
		mag, phase := m.load(cabin, inCar, i)
		r.add(fmt.Sprintf("load/sub/%d", i), "Load on the amplifier", "ohm", mag)
		r.add(fmt.Sprintf("load_phase/sub/%d", i), "Phase of the load", "deg", phase)
		r.Subs = append(r.Subs, m.derived(i, cabin.subs[i], mag))
	}
	return r
}

// learnedLevel applies the level that a measurement of this car taught.
func (m *model) learnedLevel(p [][][]complex128) {
	l := m.job.Car.Learned
	if l == nil || l.LevelDB == 0 {
		return
	}
	g := complex(math.Pow(10, l.LevelDB/20), 0)
	for _, channel := range p {
		for _, seat := range channel {
			for k := range seat {
				seat[k] *= g
			}
		}
	}
}

// channels lists the channel numbers from a to b, b left out.
func (m *model) channels(a, b int) []int {
	out := make([]int, 0, b-a)
	for c := a; c < b; c++ {
		out = append(out, c)
	}
	return out
}

// sum adds, over channels, the drive voltage times the response per volt of
// item i (a probe, a link or a mesh).
func (m *model) sum(per [][][]complex128, i int, channels []int) []complex128 {
	out := make([]complex128, len(m.omega))
	for _, c := range channels {
		v, h := m.drives[c].volts, per[c][i]
		for k := range out {
			out[k] += v[k] * h[k]
		}
	}
	return out
}

// flow returns the total volume velocity that the boxes of the given channels
// send into the listeners' world.
func (m *model) flow(b *built, s *network.Solution, channels []int) []complex128 {
	out := make([]complex128, len(m.omega))
	for _, p := range b.subs {
		for _, l := range p.Radiating {
			for k, v := range m.sum(s.Flow, int(l), channels) {
				out[k] += v
			}
		}
	}
	return out
}

// gain returns what the car adds at a seat: the level there over the level of
// the same volume velocity at 1 m in a half space. Where the flow is nothing,
// so is the gain.
func (m *model) gain(p, u []complex128) []float64 {
	out := make([]float64, len(p))
	for k := range p {
		ref := network.HalfSpacePressure(m.air, m.omega[k], 1, u[k])
		if a := math.Hypot(real(ref), imag(ref)); a > 0 {
			out[k] = decibels(p[k], a)
		}
	}
	return out
}

// load returns the magnitude (ohm) and phase (degrees) of what hangs on the
// amplifier of sub i: cable, coils and everything that moves with them.
func (m *model) load(b *built, s *network.Solution, i int) (mag, phase []float64) {
	out := m.job.Subs[i].Channel.Amplifier.OutputOhm
	mesh := int(b.subs[i].Mesh)
	mag = make([]float64, len(m.omega))
	phase = make([]float64, len(m.omega))
	for k, c := range s.Current[i][mesh] {
		z := 1/c - complex(out, 0)
		mag[k] = math.Hypot(real(z), imag(z))
		phase[k] = math.Atan2(imag(z), real(z)) * 180 / math.Pi
	}
	return mag, phase
}

// SubDerived is what follows from a box and its drivers.
type SubDerived struct {
	SystemHz    float64   `json:"system_hz"`
	Qtc         float64   `json:"qtc,omitempty"`
	PortLengths []float64 `json:"port_length_mm,omitempty"`
	// Vents names the ports in the same order, each with its tuning.
	Vents      []VentDerived `json:"vents,omitempty"`
	DriveV     float64       `json:"drive_v"`
	LoadMinOhm float64       `json:"load_min_ohm"`
	SagMM      float64       `json:"sag_mm"`
	XmaxMM     float64       `json:"xmax_mm"`
	// Driver is the complete set in the document's own keys and units, as if
	// every value had been stated.
	Driver job.Driver `json:"driver"`
}

// VentDerived is one port as worked out.
type VentDerived struct {
	Name     string  `json:"name"`
	LengthMM float64 `json:"length_mm"`
	TuningHz float64 `json:"tuning_hz"`
}

func (m *model) derived(i int, p enclosure.Parts, load []float64) SubDerived {
	d := m.subs[i]
	out := SubDerived{
		SystemHz: p.SystemHz,
		DriveV:   m.drives[i].maxVolts,
		SagMM:    1e3 * p.SagM,
		XmaxMM:   1e3 * d.Xmax,
		Driver:   d.State().ToJob(),
	}
	if m.job.Subs[i].Box.Type == "sealed" {
		out.Qtc = d.Qts * p.SystemHz / d.Fs
	}
	for _, v := range p.Vents {
		out.PortLengths = append(out.PortLengths, 1e3*v.LengthM)
		out.Vents = append(out.Vents, VentDerived{v.Name, 1e3 * v.LengthM, v.TuningHz})
	}
	least := math.Inf(1)
	for _, z := range load {
		least = math.Min(least, z)
	}
	out.LoadMinOhm = least
	return out
}

// milli multiplies by a thousand: m to mm, s to ms.
func milli(v []float64) []float64 {
	out := make([]float64, len(v))
	for i, x := range v {
		out[i] = 1e3 * x
	}
	return out
}
