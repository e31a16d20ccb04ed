package bridge

import (
	"context"
	"fmt"

	"bootfloor/internal/advise"
	"bootfloor/internal/job"
	"bootfloor/internal/wire"
)

// Questions is the reply to the call questions: the answers that a page offers
// to somebody who wants a sub.
type Questions struct {
	Bodies []BodyName        `json:"bodies"`
	Music  []advise.Music    `json:"music"`
	Loud   []advise.Loudness `json:"loud"`
}

// BodyName is a body style to choose, with the boot that goes with it.
type BodyName struct {
	Key  string   `json:"key"`
	Name string   `json:"name"`
	Say  string   `json:"say"`
	Boot job.Boot `json:"boot"`
}

func (e *Engine) questions() (Reply, error) {
	out := Questions{Music: advise.Musics(), Loud: advise.Loudnesses()}
	for _, b := range job.Bodies() {
		out.Bodies = append(out.Bodies, BodyName{b.Key, b.Name, b.Say, b.Boot})
	}
	return reply(out, nil)
}

// which answers an advise.WhichRequest with an advise.WhichAnswer, and partial
// ones on the way.
func (e *Engine) which(ctx context.Context, request []byte, progress func(Progress)) (Reply, error) {
	var req advise.WhichRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	if len(req.Drivers) > mostDrivers {
		return Reply{}, &Error{BadRequest, fmt.Sprintf("There are %d drivers to choose from; give at most %d.", len(req.Drivers), mostDrivers)}
	}
	watch := func(w advise.Watched) {
		p := Progress{Done: w.Tried, Of: w.Of, Say: fmt.Sprintf("Tried %d of %d", w.Tried, w.Of)}
		if w.Answer != nil {
			if so, err := wire.Encode(w.Answer); err == nil {
				p.SoFar = so
			}
		}
		progress(p)
	}
	if progress == nil {
		watch = nil
	}
	a, err := advise.Which(ctx, e.solver, req, watch)
	if ctx.Err() != nil {
		return Reply{}, cancelled()
	}
	if err != nil {
		return Reply{}, &Error{BadRequest, err.Error()}
	}
	return reply(a, nil)
}

// mostDrivers keeps a shelf to what can be tried in reasonable time.
const mostDrivers = 200
