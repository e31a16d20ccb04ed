package design

import (
	"fmt"
	"math"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// standardAir is the air that data sheets are taken to have been measured in.
var standardAir = air.MustStandard()

// Design is the best box found of one type. Its numbers are those of Box as
// it stands here, rounded as it is, worked out on the grid that every other
// answer uses.
type Design struct {
	Type     string    `json:"type"`
	Name     string    `json:"name"`
	Box      job.Box   `json:"box"`
	Place    job.Place `json:"place"`
	NetL     float64   `json:"net_l"` // all chambers
	ReachHz  float64   `json:"reach_hz"`
	LevelDB  float64   `json:"level_db"` // least over the goal's band
	AskedHz  float64   `json:"asked_hz"` // lowest note at the level asked for, 0 for none
	RippleDB float64   `json:"ripple_db"`
	Limit    string    `json:"limit"`
	BelowHz  float64   `json:"limit_below_hz"`
	SpeedMS  float64   `json:"speed_ms"`
	PortMM   float64   `json:"port_mm"`
	LoadOhm  float64   `json:"load_min_ohm"`
	// Kept tells that every bound is kept; else Say tells which is not.
	Kept    bool     `json:"kept"`
	Say     string   `json:"say,omitempty"`
	Outside *Outside `json:"outside,omitempty"` // where a room was given
	// Trade is what other volumes would give, each at its own best.
	Trade []Point `json:"trade"`
	// Tried counts the candidates that were worked out in the car.
	Tried int `json:"tried"`
	// Cost is what the goal wanted small; for comparing designs of one goal.
	Cost float64 `json:"cost"`
}

// Point is one place on the trade-off of volume against reach and level.
type Point struct {
	NetL    float64 `json:"net_l"`
	ReachHz float64 `json:"reach_hz"`
	LevelDB float64 `json:"level_db"`
	Box     job.Box `json:"box"`
}

// Sub returns the sub with the design put into it.
func (d *Design) Sub(s job.Sub) job.Sub {
	s.Box, s.Place = d.Box, d.Place
	return s
}

// settle rounds the best box, stands it in the room and judges what has become
// of it.
func (s *search) settle(trade []Point) (*Design, error) {
	sub := &s.job.Subs[s.sub]
	sub.Box = s.enlarged(rounded(s.best.box))
	fits := true
	var outside *Outside
	if s.Room != nil {
		o, ok := s.Room.Stand(*sub, s.unit.one, s.best.portMM)
		if fits = ok; ok {
			sub.Place = o.Place
			sub.Box.Form, sub.Box.WidthMM, sub.Box.HeightMM, sub.Box.DepthMM = o.Form, o.WidthMM, o.HeightMM, o.DepthMM
		}
		outside = &o
	}
	if outside == nil || !fits {
		// The sides of another box say nothing of this one.
		sub.Box.WidthMM, sub.Box.HeightMM, sub.Box.DepthMM = 0, 0, 0
	}
	grid := system.DefaultGrid
	if s.Rough {
		grid = roughGrid
	}
	r, _ := s.solver.Respond(s.job, grid)
	if r == nil {
		return nil, fmt.Errorf("The best box of the type %q could not be worked out once its sizes were rounded.", Name(s.Type))
	}
	c := judged{box: sub.Box}
	c.read(s.responded(r), s)
	c.broken = s.broken(c)
	d := &Design{
		Type: s.fam.key, Name: Name(s.fam.key), Box: sub.Box, Place: sub.Place, NetL: c.netL,
		ReachHz: c.verdict.ReachHz, LevelDB: c.level, AskedHz: c.verdict.AskedHz, RippleDB: c.ripple,
		Limit: c.verdict.Limit.String(), BelowHz: c.verdict.LimitBelowHz,
		SpeedMS: c.speed, PortMM: c.portMM, LoadOhm: c.loadOhm,
		Kept: c.broken < keptWithin && fits, Say: s.say(c), Outside: outside,
		Trade: trade, Tried: s.tried, Cost: s.cost(c) + 30*c.broken,
	}
	if !fits {
		d.Say = outside.Say
	}
	return d, nil
}

// roughGrid is that of a first answer.
var roughGrid = grid

// keptWithin forgives what rounding to a tenth of a litre does.
const keptWithin = 5e-3

// say names the bound that is broken most, if any.
func (s *search) say(c judged) string {
	switch b := s.bounds; {
	case c.broken < keptWithin:
		return ""
	case c.grossL < s.leastGrossL*(1-keptWithin):
		return fmt.Sprintf("The smallest box that holds the drivers has about %.1f litres of net air; it needs no less than that.", c.netL+s.leastGrossL-c.grossL)
	case c.portMM > b.PortMM:
		return fmt.Sprintf("The port would be %.0f mm long; %.0f mm is the most that fits.", c.portMM, b.PortMM)
	case b.SpeedMS > 0 && c.speed > b.SpeedMS:
		return fmt.Sprintf("The air in the port would reach %.0f m/s; %.0f m/s is allowed. Take less power, or more port.", c.speed, b.SpeedMS)
	case s.mostGrossL > 0 && c.grossL > s.mostGrossL:
		return fmt.Sprintf("It would need %s more than the space has.", litres(math.Ceil(c.grossL-s.mostGrossL)))
	case b.NetMaxL > 0 && c.netL > b.NetMaxL:
		return fmt.Sprintf("It needs %.0f litres; there are %.0f.", c.netL, b.NetMaxL)
	}
	return "It does not keep within the bounds."
}

// Rounding steps of a box that a person can build.
func rounded(b job.Box) job.Box {
	tenth := func(v float64) float64 { return math.Round(10*v) / 10 }
	b.NetL, b.FrontL = tenth(b.NetL), tenth(b.FrontL)
	for _, p := range []**job.Port{&b.Port, &b.Front} {
		if *p != nil {
			q := **p
			q.TuningHz = tenth(q.TuningHz)
			*p = &q
		}
	}
	if b.Passive != nil {
		q := *b.Passive
		q.AddedG = math.Round(q.AddedG)
		q.SdCM2, q.MassG, q.FreeHz, q.XmaxMM = math.Round(q.SdCM2), math.Round(q.MassG), tenth(q.FreeHz), tenth(q.XmaxMM)
		b.Passive = &q
	}
	if b.Vent != nil {
		q := *b.Vent
		q.AreaCM2, q.Resistance = math.Round(q.AreaCM2), math.Round(q.Resistance/10)*10
		b.Vent = &q
	}
	if b.Line != nil {
		line := append([]job.Segment(nil), b.Line...)
		for i := range line {
			line[i].StartCM2, line[i].EndCM2 = math.Round(line[i].StartCM2), math.Round(line[i].EndCM2)
		}
		b.Line = line
	}
	return b
}
