package bridge

import "bootfloor/internal/advise"

// CompareRequest asks what differs between two to four jobs.
type CompareRequest struct {
	Jobs []advise.NamedJob `json:"jobs"`
}

func (e *Engine) compare(request []byte) (Reply, error) {
	var req CompareRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	c, err := advise.Compare(e.solver, req.Jobs)
	if err != nil {
		return Reply{}, &Error{BadRequest, err.Error()}
	}
	return reply(c, nil)
}
