package design

import (
	"fmt"
	"math"

	"bootfloor/internal/job"
	"bootfloor/internal/judge"
	"bootfloor/internal/system"
)

// grid is that of the search: a twelfth of an octave, where bass is decided.
var grid = system.Grid{FromHz: 12, ToHz: 160, Points: 46}

// judged is one candidate.
type judged struct {
	x       []float64 // its point on the axes
	box     job.Box
	verdict judge.Verdict // at the seat that counts most
	level   float64       // least level over the goal's band, dB, worst seat
	ripple  float64       // rms about the target over the band, dB, all seats
	netL    float64       // all chambers
	grossL  float64
	speed   float64
	portMM  float64
	loadOhm float64
	cost    float64 // what the search lowers
	broken  float64 // how far bounds are broken; 0 when kept
}

// judgeBox works a candidate out in the car.
func (s *search) judgeBox(box job.Box) judged {
	s.tried++
	c := judged{box: box, cost: math.Inf(1), broken: math.Inf(1)}
	s.job.Subs[s.sub].Box = box
	g, _ := s.solver.Glance(s.job, grid)
	if g == nil {
		return c
	}
	c.read(s.glanced(g), s)
	c.broken = s.broken(c)
	c.cost = s.cost(c) + 30*c.broken
	return c
}

// heard is what a candidate does, from a glance or from the full response.
type heard struct {
	hz         []float64
	level, top [][]float64 // [seat that counts][k]
	code       []float64
	speed      float64
	load       float64
	portMM     []float64
}

func (s *search) glanced(g *system.Glance) heard {
	h := heard{hz: g.Hz, code: g.Code, speed: g.Speed, load: g.LoadMinOhm, portMM: g.PortLengthMM}
	for _, seat := range s.seats {
		h.level, h.top = append(h.level, g.Level[seat]), append(h.top, g.Top[seat])
	}
	return h
}

// responded reads the full response, in which the doors play no note but give
// way to the pressure.
func (s *search) responded(r *system.Response) heard {
	h := heard{hz: r.Hz, load: math.Inf(1)}
	for _, seat := range s.seats {
		id := s.job.Car.Seats[seat].ID
		h.level, h.top = append(h.level, r.Find("level/sub/"+id)), append(h.top, r.Find("max/sub/"+id))
		h.code = r.Find("max_by/sub/" + id)
	}
	for i, sub := range r.Subs {
		for _, v := range r.Find(fmt.Sprintf("air_speed/sub/%d", i)) {
			h.speed = math.Max(h.speed, v)
		}
		h.load = math.Min(h.load, sub.LoadMinOhm)
		h.portMM = append(h.portMM, sub.PortLengths...)
	}
	return h
}

// read takes the numbers of a candidate out of what it does.
func (c *judged) read(h heard, s *search) {
	c.netL = c.box.NetL + c.box.FrontL
	c.speed, c.loadOhm = h.speed, h.load
	if c.box.Type != "line" { // its length is the box itself
		for _, l := range h.portMM {
			c.portMM = math.Max(c.portMM, l)
		}
	}
	sub := s.job.Subs[s.sub]
	c.grossL = 1000 * (grossOf(sub, c.portMM/1000) + dividerOf(sub)*math.Pow(c.netL/1000, 2.0/3))
	c.level = math.Inf(1)
	var sum, n float64
	for i, top := range h.top {
		smooth := judge.Smooth(h.hz, top)
		target := s.target(h.hz, h.level[i])
		for k, f := range h.hz {
			if f < s.goal.FromHz || f > s.goal.ToHz {
				continue
			}
			c.level = math.Min(c.level, smooth[k])
			d := h.level[i][k] - target[k]
			sum, n = sum+d*d, n+1
		}
		if i == 0 {
			c.verdict = judge.Of(h.hz, top, h.code, s.goal.ToHz, s.goal.LevelDB)
		}
	}
	c.ripple = math.Sqrt(sum / math.Max(n, 1))
}

// target returns the goal's line at the height that fits the curve best.
func (s *search) target(hz, level []float64) []float64 {
	var sum, n float64
	line := make([]float64, len(hz))
	for k, f := range hz {
		line[k] = -s.goal.SlopeDB * math.Log2(f/40)
		if f >= s.goal.FromHz && f <= s.goal.ToHz {
			sum, n = sum+level[k]-line[k], n+1
		}
	}
	for k := range line {
		line[k] += sum / math.Max(n, 1)
	}
	return line
}

// broken returns how far a candidate breaks its bounds, as the sum of the
// relative excesses.
func (s *search) broken(c judged) float64 {
	over := func(v, bound float64) float64 {
		if bound <= 0 {
			return 0
		}
		return math.Max(0, v/bound-1)
	}
	b := over(c.netL, s.bounds.NetMaxL) + over(c.portMM, s.bounds.PortMM) + over(c.speed, s.bounds.SpeedMS) + over(c.grossL, s.mostGrossL)
	if s.leastGrossL > 0 {
		b += math.Max(0, s.leastGrossL/c.grossL-1)
	}
	if s.bounds.NetMinL > 0 {
		b += math.Max(0, s.bounds.NetMinL/c.netL-1)
	}
	return b
}

// cost is what the goal wants small. In Balanced two decibels of level, a third
// of an octave of reach, one and a half decibels of ripple and a little under a
// doubling of size are worth the same. Level and size go by eta0 proportional to
// V f3^3 (Small, JAES 20 (1972) 798; known as Hofmann's iron law), in which a
// doubling of size buys three decibels; size counts a little less than that,
// since a car gives the lowest octave away. The weights are ours.
func (s *search) cost(c judged) float64 {
	octaves := math.Log2(math.Max(c.verdict.ReachHz, grid.FromHz) / 20)
	short := math.Max(0, s.goal.LevelDB-c.level)
	size := 3 * math.Log2(math.Max(c.netL, 1)/10)
	return s.blows(c) + s.worth(c, octaves, short, size)
}

// blows is the cost of a port through which the air is faster, flat out, than
// it is sized for: two for each doubling, whatever the aim. What the port takes
// from the level is counted already; this is for the noise, and keeps a search
// from a box whose port is one in name only.
func (s *search) blows(c judged) float64 {
	return 2 * math.Log2(math.Max(1, c.speed/s.speedMS))
}

// worth weighs the rest.
func (s *search) worth(c judged, octaves, short, size float64) float64 {
	switch s.goal.Kind {
	case Even:
		return c.ripple + 0.1*short + 0.02*size
	case Lowest:
		return 12*octaves + 2*short - 0.05*c.level + 0.01*size
	case Loudest:
		return -c.level + 0.02*size
	case Smallest:
		late := 12 * math.Max(0, math.Log2(c.verdict.ReachHz/s.goal.FromHz))
		return size + 4*short + 4*late
	default:
		return -0.5*c.level + 2*short + 3*math.Max(0, octaves) + 0.6*c.ripple + 0.4*size
	}
}
