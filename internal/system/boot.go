package system

import (
	"math"

	"bootfloor/internal/cavity"
	"bootfloor/internal/job"
)

// A seat back that closes off a boot: how high it stands, how thick it is and
// how much it rubs. Assumed.
const (
	seatBackHeightM     = 0.55
	seatBackThickM      = 0.10
	hatchResistance     = 60.0  // Pa s/m: cloth, grilles and luggage in a free opening
	seatBackResistance  = 900.0 // Pa s/m: foam, cover and ragged edges; a Q near 2
	defaultSeatBackKgM2 = 12.0
)

// addBoot adds the boot behind the seat back as a room of its own, joined to
// the cabin through the free hatch or shelf openings and through the seat back
// itself, a limp panel. With the seats folded the panel is gone.
func (w *cabinWorld) addBoot(b job.Boot) []job.Finding {
	x, l := b.XMM*1e-3, b.LengthMM*1e-3
	floor, h, width := b.FloorMM*1e-3, b.HeightMM*1e-3, b.WidthMM*1e-3
	shape := cavity.Shape{Stations: []cavity.Station{
		{X: x, Floor: floor, Roof: floor + h, Width: width},
		{X: x + l, Floor: floor, Roof: floor + h, Width: width},
	}}
	if err := shape.Validate(); err != nil {
		return []job.Finding{job.Errorf("/car/boot", "%s", job.Sentence(err))}
	}
	w.boot = addRoom(w.net, shape, bootAbsorption(w.model.job.Car))

	backH := math.Min(seatBackHeightM, 0.9*h)
	backW := 0.9 * width
	z := floor + backH/2 + 0.05*h
	if b.SeatsFolded {
		w.neck(cavity.Neck{
			Here: cavity.Point{X: x, Z: z}, There: cavity.Point{X: x, Z: z},
			Width: backW, Height: backH, Depth: seatBackThickM,
		}.Joints(w.model.air))
		return nil
	}
	if free := b.HatchCM2 * 1e-4; free > 0 {
		// The free openings lie under the shelf, wide and low.
		hatchW := math.Min(0.8*width, math.Max(0.2, math.Sqrt(3*free)))
		top := floor + 0.9*h
		joints := cavity.Neck{
			Here: cavity.Point{X: x, Z: top}, There: cavity.Point{X: x, Z: top},
			Width: hatchW, Height: free / hatchW, Depth: 0.04,
		}.Joints(w.model.air)
		for i := range joints {
			joints[i].Resistance += hatchResistance / joints[i].Here.Area
		}
		w.neck(joints)
	}
	mass := b.SeatBackKgM2
	if mass <= 0 {
		mass = defaultSeatBackKgM2
	}
	w.neck(cavity.Neck{
		Here: cavity.Point{X: x, Z: z}, There: cavity.Point{X: x, Z: z},
		Width: backW, Height: backH, Depth: seatBackThickM,
	}.Panel(mass, seatBackResistance, w.model.air))
	return nil
}

// neck joins cabin and boot.
func (w *cabinWorld) neck(joints []cavity.Joint) {
	for _, j := range joints {
		w.net.Join(w.cabin.add(j.Here), w.boot.add(j.There), j.Link)
	}
}
