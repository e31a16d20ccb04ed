package carpentry

import (
	"fmt"
	"math"
)

// Sides is an outside size, m.
type Sides struct {
	Width, Height, Depth float64
}

// Limits bounds the sides that Size may choose; zero means no bound.
type Limits struct {
	Least, Most Sides
}

// Size returns the box whose air, once everything in it is taken out, is
// netM3. Sides of the box that are already set (above zero) stay; the others
// are found. One free side is solved for. With two or three free, the ratio of
// the free sides to each other is that of prefer, a box of the wanted
// proportions; where a limit stops one of them it stays there and the others
// give way.
func Size(b, prefer Box, netM3 float64, d Displacement, limits Limits) (Box, error) {
	if !(netM3 > 0) || math.IsInf(netM3, 1) {
		return b, fmt.Errorf("the wanted net volume is %g l; give a positive number", netM3*1000)
	}
	if !(d.Total() >= 0) || math.IsInf(d.Total(), 1) {
		return b, fmt.Errorf("what displaces the air adds up to %g l; it cannot be negative", d.Total()*1000)
	}
	sides := b.sides()
	wanted := prefer.sides()
	most := [3]float64{limits.Most.Width, limits.Most.Height, limits.Most.Depth}
	least := [3]float64{limits.Least.Width, limits.Least.Height, limits.Least.Depth}
	var free []int
	for i := range sides {
		if *sides[i] > 0 {
			continue
		}
		if !(*wanted[i] > 0) {
			return b, fmt.Errorf("the preferred proportions lack a side; give width, height and depth")
		}
		if most[i] <= 0 {
			most[i] = math.Inf(1)
		}
		free = append(free, i)
	}
	if len(free) == 0 {
		return b, fmt.Errorf("every side is fixed; the box holds %.1f l net where %.1f l are wanted", b.NetM3(d)*1000, netM3*1000)
	}
	target := netM3 + d.Total()
	grow := func(scale float64) Box {
		c := b
		cs := c.sides()
		for _, i := range free {
			*cs[i] = math.Min(math.Max(*wanted[i]*scale, least[i]), most[i])
		}
		if s := math.Tan(b.slope()); s > 0 && b.Height <= 0 {
			// A wedge ends where its top would be thinner than four panels.
			c.Height = math.Min(c.Height, math.Max(0, c.Depth-4*c.Panel)/s)
		}
		return c
	}
	// The volume never falls as the scale grows; find a bracket, then halve it.
	hi := 1.0
	for grow(hi).GrossM3() < target {
		hi *= 1.5
		if hi > 1e4 {
			return b, tooSmall(grow(hi), netM3, d)
		}
	}
	lo := 0.0
	for range 200 {
		mid := (lo + hi) / 2
		if mid == lo || mid == hi {
			break
		}
		if grow(mid).GrossM3() < target {
			lo = mid
		} else {
			hi = mid
		}
	}
	found := grow(hi)
	if err := found.Check(); err != nil {
		return b, err
	}
	// Least sides, or the apex of a wedge, may leave a smallest box.
	if over := found.NetM3(d) - netM3; over > 1e-6*netM3 {
		return b, fmt.Errorf("the smallest such box already holds %.1f l net where %.1f l are wanted; make a fixed side smaller or a wedge less sloped",
			found.NetM3(d)*1000, netM3*1000)
	}
	return found, nil
}

func tooSmall(biggest Box, netM3 float64, d Displacement) error {
	if err := biggest.Check(); err != nil {
		return fmt.Errorf("no box of that form holds %.1f l: %w", netM3*1000, err)
	}
	return fmt.Errorf("the largest box allowed (%.0f x %.0f x %.0f mm) holds %.1f l net where %.1f l are wanted; allow a larger side or less slope",
		biggest.Width*1000, biggest.Height*1000, biggest.Depth*1000, math.Max(0, biggest.NetM3(d))*1000, netM3*1000)
}

// sides returns the three outside measures for reading and setting.
func (b *Box) sides() [3]*float64 { return [3]*float64{&b.Width, &b.Height, &b.Depth} }

// RoundUp returns the box with its sides raised to whole steps, as a saw is
// set: 0.001 for millimetres. step is one over a whole number.
func (b Box) RoundUp(step float64) Box {
	for _, s := range b.sides() {
		*s = math.Ceil(*s/step-1e-9) / math.Round(1/step)
	}
	return b
}
