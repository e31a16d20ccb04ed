package cavity

import (
	"math"
	"sort"
)

// A step is an interval between two stations over which the floor, the roof or
// the sides jump: the polynomials over the section would have to bend round its
// inward corner. There the section is cut into layers instead, with a layer
// line running from the corner across the larger side, and the layer beyond
// it closing to a sliver on the smaller side. The corner is then a corner of
// the elements, where the singular flow does little harm.

const (
	stepSlope  = 1.5   // least slope of a step
	stepRise   = 0.12  // least rise, as a share of the larger section
	sliver     = 0.004 // thickness of a closed layer, m
	mostSliver = 0.05  // the same as a share of the section
	mostLayers = 0.85  // share of a section that layers may take
)

// Layers cost time in proportion to their square: at most so many in height and
// across the half width, and in both together. The weightiest steps come first.
const (
	mostTall = 3
	mostWide = 1
	mostBoth = 3 // tall plus twice wide
)

// stack is the layers along one boundary, in order away from it: the share of
// the section that each takes, by station.
type stack struct {
	share [][]float64
	steps []int // intervals that are steps
}

// layers is the stacks of a shape; the rest of each section is the main layer.
type layers struct {
	floor, roof, side stack
}

// boundary is how far a boundary reaches into the cavity at each station, and
// the thickness of the section there.
type boundary struct {
	x, g, span []float64
}

func (b *boundary) add(x, g, span float64) {
	b.x, b.g, b.span = append(b.x, x), append(b.g, g), append(b.span, span)
}

func newLayers(s Shape) layers {
	var bound [3]boundary // floor, roof, side
	for _, st := range s.Stations {
		h := st.Roof - st.Floor
		bound[0].add(st.X, st.Floor, h)
		bound[1].add(st.X, -st.Roof, h)
		bound[2].add(st.X, -st.Width/2, st.Width/2)
	}
	type step struct {
		of, interval int
		weight       float64 // rise as a share of the larger section
	}
	var steps []step
	for of, b := range bound {
		for i := 1; i < len(b.x); i++ {
			rise := math.Abs(b.g[i] - b.g[i-1])
			weight := rise / math.Max(b.span[i], b.span[i-1])
			if rise >= stepSlope*(b.x[i]-b.x[i-1]) && weight >= stepRise {
				steps = append(steps, step{of, i - 1, weight})
			}
		}
	}
	sort.SliceStable(steps, func(a, b int) bool { return steps[a].weight > steps[b].weight })
	var chosen [3][]int
	var stacks [3]stack
	for _, st := range steps {
		try := stacks
		list := append(append([]int(nil), chosen[st.of]...), st.interval)
		sort.Ints(list)
		try[st.of] = bound[st.of].stack(list)
		tall, wide := len(try[0].share)+len(try[1].share), len(try[2].share)
		if tall <= mostTall && wide <= mostWide && (wide == 0 || tall+2*wide <= mostBoth) {
			stacks, chosen[st.of] = try, list
		}
	}
	return layers{floor: stacks[0], roof: stacks[1], side: stacks[2]}
}

// anchor fixes the share of a layer at a station.
type anchor struct {
	station int
	share   float64
}

// stack lays out the layers for the given steps of a boundary.
func (bd *boundary) stack(steps []int) stack {
	x, g, span := bd.x, bd.g, bd.span
	st := stack{steps: steps}
	thin := func(i int) float64 { return math.Min(sliver/span[i], mostSliver) }
	var order [][]anchor // by layer, in order away from the boundary
	open := func(l []anchor) bool { return l[len(l)-1].share > mostSliver }
	for _, i := range st.steps {
		rise := g[i+1] - g[i]
		if rise > 0 {
			// The lowest open layer closes here; a new one lies above the rest.
			a, b := anchor{i, rise / span[i]}, anchor{i + 1, thin(i + 1)}
			k := 0
			for k < len(order) && !open(order[k]) {
				k++
			}
			if k == len(order) {
				order = append(order, nil)
			}
			order[k] = append(order[k], a, b)
			continue
		}
		// The highest closed layer below every open one opens here; a new one
		// lies below the rest.
		a, b := anchor{i, thin(i)}, anchor{i + 1, -rise / span[i+1]}
		k := -1
		for k+1 < len(order) && !open(order[k+1]) {
			k++
		}
		if k < 0 {
			order = append([][]anchor{nil}, order...)
			k = 0
		}
		order[k] = append(order[k], a, b)
	}
	for _, l := range order {
		st.share = append(st.share, spread(l, x))
	}
	return st
}

// spread carries the anchored shares of one layer to every station: straight
// between anchors, level beyond them.
func spread(l []anchor, x []float64) []float64 {
	out := make([]float64, len(x))
	for i := range x {
		switch last := l[len(l)-1]; {
		case i <= l[0].station:
			out[i] = l[0].share
		case i >= last.station:
			out[i] = last.share
		default:
			for k := 1; k < len(l); k++ {
				a, b := l[k-1], l[k]
				if i >= a.station && i <= b.station && b.station > a.station {
					t := (x[i] - x[a.station]) / (x[b.station] - x[a.station])
					out[i] = a.share + t*(b.share-a.share)
				}
			}
		}
	}
	return out
}

// steep reports whether interval i is a step of any boundary.
func (g layers) steep(i int) bool {
	for _, st := range []stack{g.floor, g.roof, g.side} {
		for _, k := range st.steps {
			if k == i {
				return true
			}
		}
	}
	return false
}

// knot returns the layer lines at the share u of the way from station i to the
// next one.
func (g layers) knot(s Shape, i int, u float64) knot {
	a := s.Stations[i]
	b := a
	if u > 0 {
		b = s.Stations[i+1]
	}
	mix := func(p, q float64) float64 { return p + u*(q-p) }
	k := knot{x: mix(a.X, b.X)}
	lines := func(i int, lo, hi float64, below, above stack) []float64 {
		var sum float64
		for _, st := range []stack{below, above} {
			for _, l := range st.share {
				sum += l[i]
			}
		}
		scale := (hi - lo) * math.Min(1, mostLayers/math.Max(sum, 1e-12))
		z := []float64{lo}
		for _, l := range below.share {
			z = append(z, z[len(z)-1]+scale*l[i])
		}
		top := []float64{hi}
		for _, l := range above.share {
			top = append(top, top[len(top)-1]-scale*l[i])
		}
		for j := len(top) - 1; j >= 0; j-- {
			z = append(z, top[j])
		}
		return z
	}
	za := lines(i, a.Floor, a.Roof, g.floor, g.roof)
	ya := lines(i, 0, a.Width/2, stack{}, g.side)[1:]
	if u > 0 {
		zb := lines(i+1, b.Floor, b.Roof, g.floor, g.roof)
		yb := lines(i+1, 0, b.Width/2, stack{}, g.side)[1:]
		for j := range za {
			za[j] = mix(za[j], zb[j])
		}
		for j := range ya {
			ya[j] = mix(ya[j], yb[j])
		}
	}
	k.zs, k.ys = za, ya
	return k
}
