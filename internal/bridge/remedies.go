package bridge

import (
	"bootfloor/internal/advise"
	"bootfloor/internal/job"
)

// Mended is the reply to the call remedies: what binds, and what would free it.
type Mended struct {
	Findings []job.Finding    `json:"findings"`
	Limits   []advise.Binding `json:"limits"`
}

func (e *Engine) remedies(request []byte) (Reply, error) {
	var req JobRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	out := Mended{Findings: job.Check(req.Job), Limits: []advise.Binding{}}
	if job.HasError(out.Findings) {
		return reply(out, nil)
	}
	limits, found := advise.Remedies(e.solver, req.Job)
	out.Findings = append(out.Findings, found...)
	if limits != nil {
		out.Limits = limits
	}
	return reply(out, nil)
}
