package system

import (
	"bootfloor/internal/cavity"
	"bootfloor/internal/job"
)

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

// absorption returns what the cabin is made of and filled with: its surfaces,
// with their share of glass, its seats and the people in them.
func absorption(c job.Car) (cavity.Absorption, []job.Finding) {
	var a cavity.Absorption
	var found []job.Finding
	glass, _ := cavity.FinishByKey("glass")
	set := func(r cavity.Region, key, at string, glazed float64) {
		f, ok := cavity.FinishByKey(key)
		if !ok {
			found = append(found, job.Errorf("/car/finish/"+at,
				"What covers the %s is given as %q, which is not a known finish; choose one of the list.", r, key))
		}
		a.Region[r] = f.Admittance.Mix(glass.Admittance, glazed)
	}
	g := c.Finish.GlassPct / 100
	set(cavity.Floor, c.Finish.Floor, "floor", 0)
	set(cavity.Roof, c.Finish.Roof, "roof", 0)
	set(cavity.Sides, c.Finish.Sides, "sides", g)
	set(cavity.Front, c.Finish.Front, "front", g)
	set(cavity.Rear, c.Finish.Rear, "rear", g)
	a.Give = c.Finish.PanelGivePct / 100
	cover, ok := cavity.FinishByKey("seats")
	if !ok {
		panic("system: no finish for seats")
	}
	for _, s := range c.Seats {
		ears := point(s.XMM, s.YMM, s.ZMM)
		a.Bodies = append(a.Bodies, cavity.SeatBody(ears, cover.Admittance))
		if s.Occupied {
			a.Bodies = append(a.Bodies, cavity.PersonBody(ears))
		}
	}
	if l := c.Learned; l != nil {
		a = a.Scaled(l.DampingScale)
	}
	return a, found
}

// bootAbsorption returns that of a separate boot: carpet on metal, with the
// back of the seats in front.
func bootAbsorption(c job.Car) cavity.Absorption {
	carpet, _ := cavity.FinishByKey("carpet")
	trim, _ := cavity.FinishByKey("hard_trim")
	var a cavity.Absorption
	for r := range a.Region {
		a.Region[r] = carpet.Admittance.Mix(trim.Admittance, 0.5)
	}
	a.Region[cavity.Roof] = trim.Admittance
	if l := c.Learned; l != nil {
		a = a.Scaled(l.DampingScale)
	}
	return a
}
