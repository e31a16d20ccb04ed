package bridge

import (
	"math"

	"bootfloor/internal/advise"
	"bootfloor/internal/carpentry"
	"bootfloor/internal/job"
	"bootfloor/internal/power"
	"bootfloor/internal/system"
)

// PlanRequest asks what a job takes to build, power and listen to safely.
type PlanRequest struct {
	Job job.Job `json:"job"`
	// Material of the panels; empty is MDF. SupplyM is the cable run from the
	// battery, one way; zero is from the nose of the car to its boot.
	Material string  `json:"material,omitempty"`
	SupplyM  float64 `json:"supply_m,omitempty"`
}

// Plan is the reply to the call plan: the workshop's half of a job sheet.
type Plan struct {
	Findings []job.Finding  `json:"findings"`
	Boxes    []BoxPlan      `json:"boxes"` // one for each sub
	Supply   *SupplyPlan    `json:"supply,omitempty"`
	Hearing  string         `json:"hearing,omitempty"`
	Answer   *advise.Answer `json:"answer,omitempty"`
}

// BoxPlan is one box as built. Say is set instead where there is none.
type BoxPlan struct {
	Say       string         `json:"say,omitempty"`
	Form      carpentry.Form `json:"form,omitempty"`
	WidthMM   float64        `json:"width_mm,omitempty"`
	HeightMM  float64        `json:"height_mm,omitempty"`
	DepthMM   float64        `json:"depth_mm,omitempty"`
	TopMM     float64        `json:"top_depth_mm,omitempty"`
	GrossL    float64        `json:"gross_l,omitempty"`
	NetL      float64        `json:"net_l,omitempty"`
	Panels    []PanelPlan    `json:"panels,omitempty"`
	Sheets    int            `json:"sheets,omitempty"`
	WastePct  float64        `json:"waste_pct,omitempty"`
	MassKg    float64        `json:"mass_kg,omitempty"`
	Fits      bool           `json:"fits"`
	Stands    string         `json:"stands,omitempty"`
	Passes    string         `json:"passes,omitempty"`
	Restraint string         `json:"restraint,omitempty"`
	ForwardN  float64        `json:"forward_n,omitempty"`
	RearN     float64        `json:"rear_n,omitempty"`
	SideN     float64        `json:"side_n,omitempty"`
	PortMM    []float64      `json:"port_mm,omitempty"`
	Findings  []job.Finding  `json:"findings,omitempty"`
}

// PanelPlan is one line of the cut list. Bevel is the angle from square of the
// two ends of the length.
type PanelPlan struct {
	Name     string     `json:"name"`
	Count    int        `json:"count"`
	LengthMM float64    `json:"length_mm"`
	WidthMM  float64    `json:"width_mm"`
	ThickMM  float64    `json:"thick_mm"`
	BevelDeg [2]float64 `json:"bevel_deg"`
	Tapers   bool       `json:"tapers,omitempty"`
}

// SupplyPlan is the run from the battery to the amplifiers.
type SupplyPlan struct {
	RunM    float64 `json:"run_m"`
	SineA   float64 `json:"sine_a"`
	LastA   float64 `json:"lasting_a"`
	AreaMM2 float64 `json:"area_mm2"`
	FuseA   float64 `json:"fuse_a"`
	Fuse    string  `json:"fuse"`
	DropV   float64 `json:"drop_v"`
	Say     string  `json:"say"`
}

func (e *Engine) plan(request []byte) (Reply, error) {
	var req PlanRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	out := Plan{Findings: job.Check(req.Job)}
	if job.HasError(out.Findings) {
		return reply(out, nil)
	}
	r, more := e.solver.Respond(req.Job, system.DefaultGrid)
	out.Findings = append(out.Findings, more...)
	if r == nil {
		return reply(out, nil)
	}
	a := advise.Answers(req.Job, r)
	out.Answer = &a
	for i, s := range req.Job.Subs {
		var ports []float64
		if i < len(r.Subs) {
			ports = r.Subs[i].PortLengths
		}
		out.Boxes = append(out.Boxes, planBox(s, req, ports))
	}
	out.Supply = planSupply(req, r)
	// Bass in cars commonly stands some ten decibels above the rest.
	out.Hearing = power.BassCaution(a.LevelDB, 10)
	return reply(out, nil)
}

func planBox(s job.Sub, req PlanRequest, ports []float64) BoxPlan {
	var longest float64
	for _, l := range ports {
		longest = math.Max(longest, l)
	}
	b, err := carpentry.Plan(s, req.Job.Car.Boot, carpentry.Options{Material: req.Material, PortLength: longest * 1e-3})
	if err != nil {
		return BoxPlan{Say: job.Sentence(err)}
	}
	p := BoxPlan{
		Form: b.Box.Form, WidthMM: mm(b.Box.Width), HeightMM: mm(b.Box.Height), DepthMM: mm(b.Box.Depth), TopMM: mm(b.Box.TopDepth()),
		GrossL: 1e3 * b.GrossM3, NetL: 1e3 * b.NetM3,
		Sheets: b.Layout.Sheets, WastePct: b.Layout.WastePct, MassKg: b.Mass.Total,
		Fits: b.Stand.Fits && b.Passage.Passes, Stands: b.Stand.Say, Passes: b.Passage.Say,
		Restraint: b.Restraint.Say, ForwardN: b.Restraint.ForwardN, RearN: b.Restraint.RearN, SideN: b.Restraint.SideN, PortMM: ports, Findings: b.Findings,
	}
	for _, q := range b.Panels {
		p.Panels = append(p.Panels, PanelPlan{
			Name: q.Name, Count: q.Count, LengthMM: mm(q.Length), WidthMM: mm(q.Width), ThickMM: mm(q.Thickness),
			BevelDeg: q.BevelDeg, Tapers: len(q.Outline) != 4 || q.Outline[2][0] != q.Outline[1][0],
		})
	}
	return p
}

// planSupply adds up the amplifiers of subs and doors, each at the least load
// that it meets. Nil where the job does not say enough.
func planSupply(req PlanRequest, r *system.Response) *SupplyPlan {
	var draws []power.Draw
	volts := 0.0
	for i, s := range req.Job.Subs {
		a := s.Channel.Amplifier
		draws = append(draws, power.SupplyDraw(a, r.Subs[i].LoadMinOhm, power.CrestLoudBassDB))
		volts = a.SupplyV
	}
	if d := req.Job.Doors; d.Fitted {
		a := d.Channel.Amplifier
		one := power.SupplyDraw(a, a.RatedOhm, power.CrestLoudBassDB)
		draws = append(draws, one, one)
		if volts == 0 {
			volts = a.SupplyV
		}
	}
	run := req.SupplyM
	if run <= 0 {
		// From the battery in the nose along the sill to the boot.
		run = math.Round(2*(req.Job.Car.Boot.XMM*1e-3+2.5)) / 2
	}
	s, err := power.PlanSupply(draws, run, volts)
	if err != nil {
		return &SupplyPlan{RunM: run, Say: job.Sentence(err)}
	}
	return &SupplyPlan{
		RunM: run, SineA: s.SineA, LastA: s.LastingA, AreaMM2: s.AreaMM2,
		FuseA: s.Fuse.RatingA, Fuse: s.Fuse.Type, DropV: s.DropV, Say: s.Say,
	}
}

func mm(m float64) float64 { return math.Round(m*1e4) / 10 }
