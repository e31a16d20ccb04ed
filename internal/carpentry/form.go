package carpentry

import (
	"fmt"
	"math"
)

// Form is the shape of a box as built.
type Form string

// The forms, as the job document spells them. A wedge leans its front face
// back so that it stands against a seat back; a slab is a low cuboid on feet
// whose cone fires at the floor.
const (
	Cuboid Form = "cuboid"
	Wedge  Form = "wedge"
	Slab   Form = "slab"
)

// Box is a box as built, outside size. All its panels are of one thickness.
type Box struct {
	Form     Form
	Width    float64 // across the car
	Height   float64 // without feet
	Depth    float64 // along the car, at the floor
	SlopeDeg float64 // wedge: lean of the front face from upright
	Panel    float64 // sheet thickness
	Feet     float64 // slab: height of the feet, the gap under the cone
}

// radians of the slope; only a wedge has one.
func (b Box) slope() float64 {
	if b.Form != Wedge {
		return 0
	}
	return b.SlopeDeg * math.Pi / 180
}

// TopDepth returns the depth at the top of the box.
func (b Box) TopDepth() float64 { return b.Depth - b.Height*math.Tan(b.slope()) }

// StandingHeight returns the height above the boot floor.
func (b Box) StandingHeight() float64 {
	if b.Form == Slab {
		return b.Height + b.Feet
	}
	return b.Height
}

// Profile returns the outside side view, anticlockwise from the front foot.
func (b Box) Profile() []Point {
	lean := b.Height * math.Tan(b.slope())
	return []Point{{0, 0}, {b.Depth, 0}, {b.Depth, b.Height}, {lean, b.Height}}
}

// InsideProfile returns the side view of the air inside.
func (b Box) InsideProfile() []Point {
	p, _ := inset(b.Profile(), b.Panel)
	return p
}

// Check returns what makes the box impossible, or nil.
func (b Box) Check() error {
	for _, f := range []struct {
		name  string
		value float64
	}{{"width", b.Width}, {"height", b.Height}, {"depth", b.Depth}, {"panel thickness", b.Panel}} {
		if !(f.value > 0) || math.IsInf(f.value, 1) {
			return fmt.Errorf("the box's %s is %g mm; give a positive number", f.name, f.value*1000)
		}
	}
	if b.Form != Cuboid && b.Form != Wedge && b.Form != Slab {
		return fmt.Errorf("there is no box form %q; use %s, %s or %s", b.Form, Cuboid, Wedge, Slab)
	}
	if b.Form == Wedge && !(b.SlopeDeg >= 0 && b.SlopeDeg <= 60) {
		return fmt.Errorf("the wedge's slope is %g degrees; give one from 0 to 60", b.SlopeDeg)
	}
	if b.Form == Slab && !(b.Feet >= 0 && b.Feet < 1) {
		return fmt.Errorf("the slab's feet are %g mm high; give a height from 0 to 1000 mm", b.Feet*1000)
	}
	if b.Width <= 2*b.Panel {
		return fmt.Errorf("a box %.0f mm wide has no air left between two panels of %g mm", b.Width*1000, b.Panel*1000)
	}
	// Past the apex the profile crosses itself and has no inside to speak of.
	if _, ok := inset(b.Profile(), b.Panel); !ok || b.TopDepth() <= 0 {
		return fmt.Errorf("a box %.0f mm high and %.0f mm deep (%.0f mm at the top) has no air left inside panels of %g mm",
			b.Height*1000, b.Depth*1000, b.TopDepth()*1000, b.Panel*1000)
	}
	return nil
}

// Outside returns the solid that the box takes up, feet left out.
func (b Box) Outside() Solid { return Prism(b.Profile(), -b.Width/2, b.Width/2) }

// Inside returns the solid of air inside the panels. The box must pass Check.
func (b Box) Inside() Solid {
	return Prism(b.InsideProfile(), -b.Width/2+b.Panel, b.Width/2-b.Panel)
}

// GrossM3 returns the air inside the panels before anything displaces it; zero
// for a box that fails Check. It is the volume of Inside, written out for a
// prism because searches ask for it many times.
func (b Box) GrossM3() float64 {
	if b.Check() != nil {
		return 0
	}
	p := b.InsideProfile()
	area := 0.0
	for i, a := range p {
		c := p[(i+1)%len(p)]
		area += (a.X*c.Z - c.X*a.Z) / 2
	}
	return area * (b.Width - 2*b.Panel)
}
