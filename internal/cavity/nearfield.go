package cavity

import "math"

// The elements carry waves down to some 0.4 m; the field right round a small
// door is sharper. The part they cannot carry is short-ranged and known: of
// the static kernel 1/(lambda + shift) it is
//
//	1/(lambda + s) + (s - shift)/(lambda + s)^2,  s = kappa^2,
//
// the first terms of its expansion about a larger shift, whose kernels in open
// space are exp(-kappa r)/(4 pi r) and exp(-kappa r)/(8 pi kappa). The element
// version of it is taken out of the static term and the exact one, with images
// in the walls near by, put in (the splitting of P. P. Ewald, Annalen der
// Physik 369, 1921, with screened sources in place of Gaussian ones).
const kappa = 8.0 // 1/m

// imageReach is how far a wall may be for its image to count, m.
const imageReach = 4.8 / kappa

// smoothKernel is the sharp kernel less its singular part 1/(4 pi r).
func smoothKernel(r, delta float64) float64 {
	x := kappa * r
	tail := delta / (2 * kappa) * math.Exp(-x)
	if x < 1e-6 {
		return (-kappa + tail) / (4 * math.Pi)
	}
	return (math.Expm1(-x)/r + tail) / (4 * math.Pi)
}

func distance(a, b Point) float64 {
	return math.Sqrt((a.X-b.X)*(a.X-b.X) + (a.Y-b.Y)*(a.Y-b.Y) + (a.Z-b.Z)*(a.Z-b.Z))
}

// plane is a wall: a point on it and its unit normal.
type plane struct {
	at, normal Point
}

func (p plane) height(q Point) float64 {
	return (q.X-p.at.X)*p.normal.X + (q.Y-p.at.Y)*p.normal.Y + (q.Z-p.at.Z)*p.normal.Z
}

func (p plane) mirror(q Point) Point {
	h := 2 * p.height(q)
	return Point{q.X - h*p.normal.X, q.Y - h*p.normal.Y, q.Z - h*p.normal.Z}
}

// walls returns the planes near c in three groups that stand more or less at
// right angles: ends and steep steps, sides, floor and roof. Of each wall only
// the nearest piece counts.
func (s Shape) walls(c Point) [3][]plane {
	var g [3][]plane
	add := func(group int, p plane) {
		if math.Abs(p.height(c)) < imageReach {
			g[group] = append(g[group], p)
		}
	}
	n := len(s.Stations)
	add(0, plane{Point{s.Stations[0].X, 0, 0}, Point{1, 0, 0}})
	add(0, plane{Point{s.Stations[n-1].X, 0, 0}, Point{1, 0, 0}})
	// A line in the plane of x and another axis, seen from c.
	nearest := func(u float64, line func(Station) float64) (best plane, steep []plane) {
		d := math.Inf(1)
		for i := 1; i < n; i++ {
			a, b := s.Stations[i-1], s.Stations[i]
			dx, du := b.X-a.X, line(b)-line(a)
			l := math.Hypot(dx, du)
			t := ((c.X-a.X)*dx + (u-line(a))*du) / (l * l)
			p := plane{Point{a.X, line(a), 0}, Point{-du / l, dx / l, 0}}
			if math.Abs(du) > dx {
				if t >= 0 && t <= 1 {
					steep = append(steep, p)
				}
				continue
			}
			// A piece that c does not face counts only where it faces none.
			beyond := t - min(max(t, 0), 1)
			t -= beyond
			h := math.Hypot(c.X-a.X-t*dx, u-line(a)-t*du)
			if math.Abs(beyond)*l > 1e-9 {
				h += maxSpan
			}
			if h < d {
				d, best = h, p
			}
		}
		return best, steep
	}
	put := func(group int, u float64, line func(Station) float64, turn func(Point) Point) {
		best, steep := nearest(u, line)
		if best.normal != (Point{}) {
			add(group, plane{turn(best.at), turn(best.normal)})
		}
		for _, p := range steep {
			add(0, plane{turn(p.at), turn(p.normal)})
		}
	}
	up := func(p Point) Point { return Point{p.X, 0, p.Y} }
	put(2, c.Z, func(st Station) float64 { return st.Floor }, up)
	put(2, c.Z, func(st Station) float64 { return st.Roof }, up)
	across := func(p Point) Point { return p }
	put(1, c.Y, func(st Station) float64 { return st.Width / 2 }, across)
	put(1, c.Y, func(st Station) float64 { return -st.Width / 2 }, across)
	return g
}

// image is one reflection of a door: the walls to mirror in, in turn.
type image []plane

func (im image) of(p Point) Point {
	for _, w := range im {
		p = w.mirror(p)
	}
	return p
}

// images lists the reflections at c, the door itself first and single mirrors
// before double ones.
func (s Shape) images(c Point) []image {
	out := []image{nil}
	for _, group := range s.walls(c) {
		for _, im := range out[:len(out):len(out)] {
			for _, w := range group {
				next := append(append(image(nil), im...), w)
				if distance(next.of(c), c) < 2*imageReach {
					out = append(out, next)
				}
			}
		}
	}
	return out
}

// footing is a door as the near field sees it.
type footing struct {
	patch  Patch
	centre Point
	pts    []weighted
	images []image
}

func (s Shape) footing(p Patch) footing {
	c := s.Clamp(p.Centre)
	return footing{patch: p, centre: c, pts: s.footprint(p), images: s.images(c)}
}

// farAway is where the sharp kernel is below a thousandth of what it is at
// arm's length, m.
const farAway = 7.2 / kappa

// sharp returns the short-ranged static kernel averaged over two doors. Doors
// further apart than three times their size act as points.
func sharp(a, b footing, delta float64) float64 {
	var sum float64
	reach := 8 * (a.extent() + b.extent())
	for _, im := range b.images {
		d := distance(a.centre, im.of(b.centre))
		if d > farAway {
			continue
		}
		if d > reach {
			sum += smoothKernel(d, delta) + 1/(4*math.Pi*d)
			continue
		}
		for _, q := range b.pts {
			r := im.of(q.Point)
			for _, p := range a.pts {
				d := math.Max(distance(p.Point, r), 1e-3)
				sum += p.w * q.w * (smoothKernel(d, delta) + 1/(4*math.Pi*d))
			}
		}
	}
	return sum
}

// extent is the largest distance from the centre to a point of the footprint.
func (f footing) extent() float64 {
	var d float64
	for _, p := range f.pts {
		d = max(d, distance(p.Point, f.centre))
	}
	return d
}

// ownSharp returns the same for a door on itself, less the inertance of a
// piston of its area in a baffle (over rho): that of its own half for a door
// in the open, both halves for a door flat on a wall, whose mirror it is.
func ownSharp(a footing, delta float64) float64 {
	radius := a.patch.radius()
	half := 0.0 // of 8/(3 pi^2 a)
	if radius > 0 {
		half = 4 / (3 * math.Pi * math.Pi * radius)
	}
	var sum float64
	mount := a.mount()
	reach := 6 * a.extent()
	for k, im := range a.images {
		gap := distance(im.of(a.centre), a.centre)
		if k > 0 && k != mount && gap > reach {
			if gap < farAway {
				sum += smoothKernel(gap, delta) + 1/(4*math.Pi*max(gap, 1e-2))
			}
			continue
		}
		for _, q := range a.pts {
			r := im.of(q.Point)
			for _, p := range a.pts {
				d := distance(p.Point, r)
				sum += p.w * q.w * smoothKernel(d, delta)
				if k > 0 && k != mount {
					sum += p.w * q.w / (4 * math.Pi * math.Max(d, 1e-2))
				}
			}
		}
		switch k {
		case 0:
			sum += a.patch.coincident() - half
		case mount:
			// Two equal discs face to face: 16/(3 pi a) touching, 1/gap far off.
			soft := 1e-2
			if c := a.patch.coincident(); c > 0 {
				soft = 1 / (4 * math.Pi * c)
			}
			sum += 1/(4*math.Pi*math.Hypot(gap, soft)) - half*flush(gap, radius)
		}
	}
	return sum
}

// mount returns the number of the image in the wall that a door is nearest to,
// 0 where there is none or the door is a point.
func (f footing) mount() int {
	best, d := 0, math.Inf(1)
	for k, im := range f.images {
		if len(im) != 1 {
			continue
		}
		if h := math.Abs(im[0].height(f.centre)); h < d && h < 1.5*f.patch.radius() {
			best, d = k, h
		}
	}
	return best
}

// flush is 1 for a door on a wall, gap zero from its mirror, and 0 for one clear
// of it by more than one and a half radii.
func flush(gap, radius float64) float64 {
	t := min(max(1.5-gap/(2*radius), 0), 1)
	return t * t * (3 - 2*t)
}

// coincident returns 1/(4 pi r) averaged over the footprint with itself:
// 4/(3 pi^2 a) for a disc, and in closed form for a rectangle.
func (p Patch) coincident() float64 {
	side := make([]float64, 0, 3)
	for _, v := range []float64{p.Size.X, p.Size.Y, p.Size.Z} {
		if v > 0 {
			side = append(side, v)
		}
	}
	if len(side) == 2 {
		a, b := side[0], side[1]
		d := math.Hypot(a, b)
		i := 2*(a*a*b*math.Asinh(b/a)+a*b*b*math.Asinh(a/b)) + 2.0/3*(a*a*a+b*b*b-d*d*d)
		return i / (4 * math.Pi * a * a * b * b)
	}
	if p.Area <= 0 {
		return 0
	}
	return 4 / (3 * math.Pi * math.Pi * p.radius())
}

// sharpen replaces the short-ranged part of the static moments, as the
// elements have it, by the exact one. In t = 1/(lambda + shift) the kernel is
// t h(delta t): the kept modes' share of it is summed, and that of all others
// follows from the moments of the dropped modes, the powers of t.
func (f *Field) sharpen(foot []footing) {
	m, nd := f.modes, len(f.doors)
	delta := kappa*kappa - m.shift
	c := sharpSeries(delta / (m.cut*m.cut + m.shift))
	kept := make([]float64, m.Len())
	for n := range kept {
		t := 1 / (m.lambda(n) + m.shift)
		kept[n] = t * sharpShape(delta*t)
	}
	for i := range nd {
		for j := range i + 1 {
			at := i*nd + j
			have, power := f.rest[0][at], 1.0
			for p, v := range c {
				power *= delta
				have += v * power * f.rest[p+1][at]
			}
			for n, v := range kept {
				have += v * f.phi[n*nd+i] * f.phi[n*nd+j]
			}
			var want float64
			if i == j {
				want = ownSharp(foot[i], delta)
			} else {
				want = (sharp(foot[i], foot[j], delta) + sharp(foot[j], foot[i], delta)) / 2
			}
			f.rest[0][at] += m.volume*want - have
		}
	}
}

// sharpShape is h(x) = 1/(1 + x) + x/(1 + x)^2, x = delta t.
func sharpShape(x float64) float64 { return (1 + 2*x) / ((1 + x) * (1 + x)) }

// sharpSeries returns the coefficients of x, x^2 and x^3 of a polynomial that
// stands for h from 0, where it is 1 as h is, to top: right at three places
// spread so that what is left, weighted with the number of modes, nearly
// cancels. A door's own kernel is then short by 0.01 to 0.02 per metre, of
// about one.
func sharpSeries(top float64) [3]float64 {
	x := [3]float64{0.1 * top, 0.5 * top, 0.9 * top}
	var d [3]float64 // Newton's divided differences of (h - 1)/x
	for i, v := range x {
		d[i] = (sharpShape(v) - 1) / v
	}
	d[2] = (d[2] - d[1]) / (x[2] - x[1])
	d[1] = (d[1] - d[0]) / (x[1] - x[0])
	d[2] = (d[2] - d[1]) / (x[2] - x[0])
	return [3]float64{d[0] - x[0]*d[1] + x[0]*x[1]*d[2], d[1] - (x[0]+x[1])*d[2], d[2]}
}
