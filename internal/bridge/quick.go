package bridge

import (
	"context"

	"bootfloor/internal/advise"
)

// QuickCall is a quick request: a typed line, fields, or both, in which case
// the fields win. ReadOnly asks only what the line was read as.
type QuickCall struct {
	Text     string               `json:"text,omitempty"`
	Request  *advise.QuickRequest `json:"request,omitempty"`
	ReadOnly bool                 `json:"read_only,omitempty"`
}

// QuickReply is the reply to the call quick.
type QuickReply struct {
	Chips   []advise.Chip       `json:"chips"`
	Unknown []advise.Piece      `json:"unknown"`
	Read    advise.QuickRequest `json:"read"` // what the line said
	*advise.QuickAnswer
}

func (e *Engine) quick(request []byte) (Reply, error) {
	var req QuickCall
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	line := advise.ParseLine(req.Text)
	out := QuickReply{Chips: line.Chips, Unknown: line.Unknown, Read: line.Request}
	if req.ReadOnly {
		return reply(out, nil)
	}
	asked := line.Request
	if req.Request != nil {
		asked = asked.Over(*req.Request)
	}
	a, err := advise.Quick(context.Background(), e.solver, asked)
	if err != nil {
		return Reply{}, &Error{BadRequest, err.Error()}
	}
	out.QuickAnswer = a
	return reply(out, nil)
}
