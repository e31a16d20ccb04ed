package system

import (
	"math"

	"bootfloor/internal/cavity"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// CabinDerived is what follows from the car.
type CabinDerived struct {
	VolumeM3 float64   `json:"volume_m3"` // of the shape
	AirM3    float64   `json:"air_m3"`    // less what stands in it
	BootM3   float64   `json:"boot_m3"`   // of a separate boot, else 0
	UnityHz  float64   `json:"unity_hz"`  // where the pressure zone meets the half space at 1 m
	HalfHz   float64   `json:"half_wave_hz"`
	ModesHz  []float64 `json:"modes_hz"`
}

// cabinWorld is the car: the cabin, its leak and openings to the outside and,
// in a saloon, the boot behind the seat back.
type cabinWorld struct {
	solver *Solver
	model  *model
	net    *network.Network
	cabin  *room
	boot   *room // nil unless separate
	still  network.Door
}

// newWorld puts the car of a model into a network: a cabin, or the open air
// where the roof is off. Mouths are added as boxes are assembled.
func (s *Solver) newWorld(n *network.Network, m *model) (world, []job.Finding) {
	for _, o := range m.job.Car.Openings {
		if o.Kind == "roof_off" {
			return newOpenWorld(n, m), nil
		}
	}
	shape := cabinShape(m.job.Car.Cabin)
	if err := shape.Validate(); err != nil {
		return nil, []job.Finding{job.Errorf("/car/cabin", "%s", job.Sentence(err))}
	}
	loss, found := absorption(m.job.Car)
	w := &cabinWorld{solver: s, model: m, net: n}
	w.cabin = addRoom(n, shape, loss)
	w.still = n.AddChamber(network.Still{})
	if b := m.job.Car.Boot; b.Separate {
		found = append(found, w.addBoot(b)...)
	}
	return w, found
}

// Mouth implements enclosure.World.
func (w *cabinWorld) Mouth(at job.Place, area float64) network.Door {
	p := mouth(at, area)
	if w.boot != nil && at.XMM*1e-3 >= w.boot.shape.Stations[0].X {
		return w.boot.add(p)
	}
	return w.cabin.add(p)
}

// mouth returns the door of a cone or port. Places are kept to a few
// centimetres and areas to a few sizes, finer than bass can tell, so that a
// port that grows under the finger does not make a new cavity at each step.
func mouth(at job.Place, area float64) cavity.Patch {
	const step = 25 // mm
	round := func(v float64) float64 { return step * math.Round(v/step) }
	const perOctave = 3
	size := math.Exp2(math.Round(perOctave*math.Log2(area)) / perOctave)
	return cavity.Patch{Centre: point(round(at.XMM), round(at.YMM), round(at.ZMM)), Area: size}
}

// behindM is how far the back of a cone is from its front where both are in
// one room, m.
const behindM = 0.25

// Behind implements enclosure.World: behind a shelf or a seat back lies the
// boot where it is a room of its own. Elsewhere a baffle has the same cabin on
// both sides, and the back of the cone undoes what the front does.
func (w *cabinWorld) Behind(at job.Place, area float64) network.Door {
	if w.boot == nil {
		at.XMM += 1e3 * behindM
		return w.cabin.add(mouth(at, area))
	}
	at.XMM = math.Max(at.XMM, 1e3*(w.boot.shape.Stations[0].X+0.05))
	return w.boot.add(mouth(at, area))
}

// finish implements world.
func (w *cabinWorld) finish(seats []job.Seat) []job.Finding {
	for _, s := range seats {
		w.net.Probe(w.cabin.add(cavity.Patch{Centre: point(s.XMM, s.YMM, s.ZMM)}))
	}
	w.leak()
	w.openings()
	learned := 1.0
	if l := w.model.job.Car.Learned; l != nil {
		learned = l.VolumeScale
	}
	if err := w.solver.lookUp(w.cabin, w.model, w.airVolume()*learned); err != nil {
		return []job.Finding{job.Errorf("/car", "%s", job.Sentence(err))}
	}
	if w.boot != nil {
		if err := w.solver.lookUp(w.boot, w.model, w.boot.shape.Volume()-w.boxes(true)); err != nil {
			return []job.Finding{job.Errorf("/car/boot", "%s", job.Sentence(err))}
		}
	}
	return nil
}

// leak joins the cabin to the outside through all its small gaps and vents,
// gathered low at the rear, where most cars have their vent flaps. Variations
// leave the size of its mouth as it is, so that they share one cavity.
func (w *cabinWorld) leak() {
	car := w.model.job.Car
	area := car.Finish.LeakCM2 * 1e-4
	if car.Learned != nil {
		area *= car.Learned.LeakScale
	}
	if area <= 0 {
		return
	}
	last := w.cabin.shape.Stations[len(w.cabin.shape.Stations)-1]
	at := cavity.Point{X: last.X, Y: 0.45 * last.Width, Z: last.Floor + 0.2*(last.Roof-last.Floor)}
	p, _ := cavity.Leak(at, area, cavity.BodyGaps, w.model.air)
	_, l := cavity.Leak(at, area*w.model.vary.Leak, cavity.BodyGaps, w.model.air)
	w.net.Join(w.cabin.add(p), w.still, l)
}

// panelM is the thickness of the body around an opening. Assumed.
const panelM = 0.03

// openings joins what stands open to the outside.
func (w *cabinWorld) openings() {
	for _, o := range w.model.job.Car.Openings {
		area := o.AreaCM2 * 1e-4
		if area <= 0 {
			continue
		}
		p, l := cavity.Opening(point(o.XMM, o.YMM, o.ZMM), openingSize(o.Kind, area), area, panelM, w.model.air)
		w.net.Join(w.cabin.add(p), w.still, l)
	}
}

// openingSize spreads an opening over its footprint: a window is a slot along
// the side, a sunroof square in the roof, a tailgate wide in the rear.
func openingSize(kind string, area float64) cavity.Point {
	switch kind {
	case "window":
		length := math.Min(0.7, math.Max(math.Sqrt(area), 0.3))
		return cavity.Point{X: length, Z: area / length}
	case "sunroof":
		return cavity.Point{X: math.Sqrt(area), Y: math.Sqrt(area)}
	default:
		width := math.Min(1.1, math.Max(math.Sqrt(area), 0.3))
		return cavity.Point{Y: width, Z: area / width}
	}
}

// airVolume returns the volume of air in the cabin, m3: its shape less the
// boxes that stand in it. Seats and people are the cavity's own business.
func (w *cabinWorld) airVolume() float64 {
	return math.Max(w.cabin.shape.Volume()-w.boxes(false), 0.2*w.cabin.shape.Volume())
}

// boxes returns what the boxes in the cabin, or in the boot, take out of it.
func (w *cabinWorld) boxes(inBoot bool) float64 {
	var v float64
	for _, s := range w.model.job.Subs {
		if (w.boot != nil && s.Place.XMM*1e-3 >= w.boot.shape.Stations[0].X) == inBoot {
			v += grossM3(s.Box)
		}
	}
	return v
}

// grossM3 estimates what a box takes out of the space it stands in: its air
// and a fifth more for panels, driver and bracing. Common practice, no source.
func grossM3(b job.Box) float64 {
	if b.Type == "infinite_baffle" {
		return 0
	}
	return 1.2e-3 * (b.NetL + b.FrontL)
}

func (w *cabinWorld) derived() CabinDerived {
	a := w.model.air
	air := w.airVolume() - w.cabin.loss.Displaced()
	d := CabinDerived{
		VolumeM3: w.cabin.shape.Volume(),
		AirM3:    air,
		HalfHz:   a.SpeedOfSound / (2 * w.cabin.shape.Length()),
		UnityHz:  a.SpeedOfSound / (2 * math.Pi) * math.Sqrt(2*math.Pi/air),
	}
	if w.boot != nil {
		d.BootM3 = w.boot.shape.Volume()
	}
	if m, err := w.solver.modesOf(w.cabin.shape); err == nil {
		for n := 1; n < m.Len() && n <= 12; n++ {
			d.ModesHz = append(d.ModesHz, m.Wavenumber(n)*a.SpeedOfSound/(2*math.Pi))
		}
	}
	return d
}
