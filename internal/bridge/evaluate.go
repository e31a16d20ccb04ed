package bridge

import (
	"bootfloor/internal/advise"
	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// EvaluateRequest asks what a job does.
type EvaluateRequest struct {
	Job  job.Job      `json:"job"`
	Grid *system.Grid `json:"grid,omitempty"`
}

// CurveMeta says where in the flat numbers a curve lies.
type CurveMeta struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Unit   string `json:"unit"`
	Offset int    `json:"offset"`
	Length int    `json:"length"`
}

// Evaluation is the reply to the call evaluate. Where a finding is an error
// there is no answer and there are no curves.
type Evaluation struct {
	Findings []job.Finding  `json:"findings"`
	Answer   *advise.Answer `json:"answer,omitempty"`
	Derived  *Derived       `json:"derived,omitempty"`
	Seats    []string       `json:"seats,omitempty"`
	Curves   []CurveMeta    `json:"curves,omitempty"`
}

// Derived is what follows from the job without being asked for.
type Derived struct {
	Cabin system.CabinDerived `json:"cabin"`
	Subs  []system.SubDerived `json:"subs"`
}

func (e *Engine) evaluate(request []byte) (Reply, error) {
	var req EvaluateRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	j := req.Job
	grid := system.DefaultGrid
	if req.Grid != nil {
		grid = *req.Grid
	}
	found := job.Check(j)
	out := Evaluation{Findings: found}
	if job.HasError(found) {
		return reply(out, nil)
	}
	r, more := e.solver.Respond(j, grid)
	out.Findings = append(out.Findings, more...)
	if r == nil {
		return reply(out, nil)
	}
	a := advise.Answers(j, r)
	out.Answer = &a
	out.Seats = r.Seats
	out.Derived = &Derived{Cabin: r.Cabin, Subs: r.Subs}
	var floats []float64
	out.Curves, floats = flatten(r.Curves)
	return reply(out, floats)
}

// flatten lays curves end to end.
func flatten(curves []system.Curve) ([]CurveMeta, []float64) {
	var n int
	for _, c := range curves {
		n += len(c.Values)
	}
	floats := make([]float64, 0, n)
	meta := make([]CurveMeta, len(curves))
	for i, c := range curves {
		meta[i] = CurveMeta{c.ID, c.Name, c.Unit, len(floats), len(c.Values)}
		floats = append(floats, c.Values...)
	}
	return meta, floats
}
