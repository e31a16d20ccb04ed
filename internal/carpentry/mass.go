package carpentry

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r3"
)

// Material is a sheet.
type Material struct {
	Key     string
	Name    string
	Density float64 // kg/m3
}

// Range of densities met in sheets sold under the same name, kg/m3: Mechel,
// Formulas of Acoustics (2008), table 3, gives 600 to 800 for plywood.
const (
	LightestSheet = 600
	HeaviestSheet = 800
)

// materials has its densities from Hopkins, Sound Insulation (2007), table A2.
var materials = map[string]Material{
	"mdf":       {"mdf", "MDF", 760},
	"birch_ply": {"birch_ply", "birch plywood", 710},
	"chipboard": {"chipboard", "chipboard", 760},
	"osb":       {"osb", "oriented strand board", 590},
}

// Materials returns the sheets known, by key.
func Materials() []Material {
	out := make([]Material, 0, len(materials))
	for _, m := range materials {
		out = append(out, m)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Key < out[j].Key })
	return out
}

// MaterialFor returns the sheet of a key.
func MaterialFor(key string) (Material, error) {
	m, ok := materials[key]
	if !ok {
		return Material{}, fmt.Errorf("there is no sheet %q; use mdf, birch_ply, chipboard or osb", key)
	}
	return m, nil
}

// Face names a side of the box by the way it looks.
type Face string

// The faces, named as the job document names the way a cone fires.
const (
	Up    Face = "up"
	Down  Face = "down"
	Front Face = "front"
	Rear  Face = "rear"
	Left  Face = "left"
	Right Face = "right"
)

// Fitting is what is screwed to a face, centred on it.
type Fitting struct {
	On     Face
	Hole   float64 // diameter of its cut-out, m
	Mass   float64 // kg
	Behind float64 // how far inward of the panel's outer face its centre of gravity lies, m
}

// Mass is what a box weighs, and where.
type Mass struct {
	Panels float64 // kg, cut-outs taken out
	Total  float64 // kg, with fittings and extras
	Centre r3.Vec  // centre of gravity in the box's axes, m
}

// Weigh returns mass and centre of gravity of a box that passes Check: panels
// of one material less the fittings' cut-outs, the fittings, and extra mass
// (bracing, ports, lining) spread over the air inside.
func (b Box) Weigh(m Material, fittings []Fitting, extra float64) (Mass, error) {
	var panels, total float64
	var moment r3.Vec
	add := func(kg float64, at r3.Vec) {
		total += kg
		moment = r3.Add(moment, r3.Scale(kg, at))
	}
	for _, p := range b.Panels() {
		for _, s := range p.solids {
			v, first := s.moments()
			panels += m.Density * v
			total += m.Density * v
			moment = r3.Add(moment, r3.Scale(m.Density, first))
		}
	}
	for _, f := range fittings {
		centre, inward, err := b.face(f.On)
		if err != nil {
			return Mass{}, err
		}
		hole := m.Density * math.Pi / 4 * f.Hole * f.Hole * b.Panel
		panels -= hole
		add(-hole, r3.Add(centre, r3.Scale(b.Panel/2, inward)))
		add(f.Mass, r3.Add(centre, r3.Scale(f.Behind, inward)))
	}
	add(extra, b.Inside().Centroid())
	if !(total > 0) {
		return Mass{}, fmt.Errorf("the box weighs %g kg; check the cut-outs", total)
	}
	return Mass{Panels: panels, Total: total, Centre: r3.Scale(1/total, moment)}, nil
}

// face returns the middle of an outside face and the direction inward.
func (b Box) face(f Face) (centre, inward r3.Vec, err error) {
	a := b.slope()
	lean := b.Height * math.Tan(a)
	switch f {
	case Up:
		return r3.Vec{X: (lean + b.Depth) / 2, Z: b.Height}, r3.Vec{Z: -1}, nil
	case Down:
		return r3.Vec{X: b.Depth / 2}, r3.Vec{Z: 1}, nil
	case Front:
		return r3.Vec{X: lean / 2, Z: b.Height / 2}, r3.Vec{X: math.Cos(a), Z: -math.Sin(a)}, nil
	case Rear:
		return r3.Vec{X: b.Depth, Z: b.Height / 2}, r3.Vec{X: -1}, nil
	case Left, Right:
		y := b.Width / 2
		if f == Left {
			y = -y
		}
		c := b.Outside().Centroid()
		return r3.Vec{X: c.X, Y: y, Z: c.Z}, r3.Vec{Y: -math.Copysign(1, y)}, nil
	}
	return r3.Vec{}, r3.Vec{}, fmt.Errorf("there is no face %q; use up, down, front, rear, left or right", f)
}
