package system

import (
	"math"

	"bootfloor/internal/cavity"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// cabinWorld is the car: the cabin, its leak to the outside and, in a saloon,
// the boot behind the seat back.
type cabinWorld struct {
	solver *Solver
	model  *model
	net    *network.Network
	shape  cavity.Shape
	cabin  *space
	id     network.BodyID
	still  network.Door
}

// CabinDerived is what follows from the car.
type CabinDerived struct {
	VolumeM3 float64   `json:"volume_m3"` // of the shape
	AirM3    float64   `json:"air_m3"`    // less what stands in it
	UnityHz  float64   `json:"unity_hz"`  // where the pressure zone meets the half space at 1 m
	HalfHz   float64   `json:"half_wave_hz"`
	ModesHz  []float64 `json:"modes_hz"`
}

// newCabinWorld starts the car in a network. Mouths are added as boxes are
// assembled; finish completes it.
func (s *Solver) newCabinWorld(n *network.Network, m *model) (*cabinWorld, []job.Finding) {
	shape := cabinShape(m.job.Car.Cabin)
	if err := shape.Validate(); err != nil {
		return nil, []job.Finding{job.Errorf("/car/cabin", "%v", err)}
	}
	w := &cabinWorld{solver: s, model: m, net: n, shape: shape, cabin: &space{scale: 1}}
	w.id = n.AddBody(w.cabin)
	w.still = n.AddChamber(network.Still{})
	return w, nil
}

// cabinShape reads a cabin in metres.
func cabinShape(c job.Cabin) cavity.Shape {
	if c.Shape != "stations" {
		return cavity.Cuboid(c.LengthMM*1e-3, c.WidthMM*1e-3, c.HeightMM*1e-3)
	}
	var s cavity.Shape
	for _, st := range c.Stations {
		s.Stations = append(s.Stations, cavity.Station{
			X: st.XMM * 1e-3, Floor: st.FloorMM * 1e-3, Roof: st.RoofMM * 1e-3, Width: st.WidthMM * 1e-3,
		})
	}
	return s
}

func point(x, y, z float64) cavity.Point {
	return cavity.Point{X: x * 1e-3, Y: y * 1e-3, Z: z * 1e-3}
}

// Mouth implements enclosure.World.
func (w *cabinWorld) Mouth(at job.Place, area float64) network.Door {
	return w.cabin.add(w.id, cavity.Patch{Centre: point(at.XMM, at.YMM, at.ZMM), Area: area})
}

// Behind implements enclosure.World.
func (w *cabinWorld) Behind(job.Place, float64) network.Door { return w.still }

// finish adds ears and leak and looks the cavity up.
func (w *cabinWorld) finish(n *network.Network, seats []job.Seat) []job.Finding {
	for _, s := range seats {
		n.Probe(w.cabin.add(w.id, cavity.Patch{Centre: point(s.XMM, s.YMM, s.ZMM)}))
	}
	w.leak(n)
	car := w.model.job.Car
	t, err := w.solver.table(w.shape, w.model.air, absorption(car), w.cabin.patches, w.model.omega)
	if err != nil {
		return []job.Finding{job.Errorf("/car", "%v", err)}
	}
	w.cabin.table = t
	w.cabin.scale = w.shape.Volume() / w.airVolume()
	return nil
}

// leakDepthM is the length of the gaps and vents that a body leaks through.
// Assumed.
const leakDepthM = 0.02

// leak joins the cabin to the outside through all its small gaps and vents,
// gathered low at the rear, where most cars have their vent flaps.
func (w *cabinWorld) leak(n *network.Network) {
	area := w.model.job.Car.Finish.LeakCM2 * 1e-4
	if l := w.model.job.Car.Learned; l != nil {
		area *= l.LeakScale
	}
	if area <= 0 {
		return
	}
	last := w.shape.Stations[len(w.shape.Stations)-1]
	at := cavity.Point{X: last.X, Y: 0.45 * last.Width, Z: last.Floor + 0.2*(last.Roof-last.Floor)}
	a := math.Sqrt(area / math.Pi)
	m := w.model.air.Density * (leakDepthM + 2*network.FlangedEnd*a) / area
	// Narrow gaps rub: the resistance is that of a slug whose Q with the
	// cabin is about one. Assumed.
	w0 := w.model.air.SpeedOfSound * math.Sqrt(w.model.air.Density/(m*w.shape.Volume()))
	n.Join(w.cabin.add(w.id, cavity.Patch{Centre: at, Area: area}), w.still,
		network.Inertance{Mass: m, Resistance: w0 * m})
}

// airVolume returns the volume of air in the cabin, m3: its shape less the
// boxes that stand in it.
func (w *cabinWorld) airVolume() float64 {
	v := w.shape.Volume()
	for _, s := range w.model.job.Subs {
		v -= grossM3(s.Box)
	}
	return math.Max(v, 0.2*w.shape.Volume())
}

// grossM3 estimates what a box takes out of the cabin: its air and a fifth
// more for panels, driver and bracing. Common practice, no source.
func grossM3(b job.Box) float64 {
	if b.Type == "infinite_baffle" {
		return 0
	}
	return 1.2e-3 * (b.NetL + b.FrontL)
}

func (w *cabinWorld) derived() CabinDerived {
	a := w.model.air
	d := CabinDerived{
		VolumeM3: w.shape.Volume(),
		AirM3:    w.airVolume(),
		HalfHz:   a.SpeedOfSound / (2 * w.shape.Length()),
	}
	d.UnityHz = a.SpeedOfSound / (2 * math.Pi) * math.Sqrt(2*math.Pi/d.AirM3)
	if m, err := w.solver.modesOf(w.shape); err == nil {
		for n := 1; n < m.Len() && n <= 12; n++ {
			d.ModesHz = append(d.ModesHz, m.Wavenumber(n)*a.SpeedOfSound/(2*math.Pi))
		}
	}
	return d
}

func absorption(c job.Car) cavity.Absorption {
	a := cavity.Uniform(0.03)
	return a
}
