package bridge

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"bootfloor/internal/design"
	"bootfloor/internal/job"
	"bootfloor/internal/wire"
)

// Set is one change to a job: a JSON pointer and the value to put there.
type Set struct {
	At    string `json:"at"`
	Value any    `json:"value"`
}

// DesignRequest asks for the best boxes of some types for one sub of a job.
// No types means all that can be designed.
type DesignRequest struct {
	Job    job.Job      `json:"job"`
	Sub    int          `json:"sub"`
	Types  []string     `json:"types,omitempty"`
	Goal   design.Goal  `json:"goal"`
	Bounds DesignBounds `json:"bounds"`
	// Rough asks for a first answer at a fifth of the work.
	Rough bool `json:"rough,omitempty"`
}

// DesignBounds are the bounds of a design, and whether the box must stand in
// the boot within the share of it that the job's aim gives up.
type DesignBounds struct {
	design.Bounds
	Fits bool `json:"fits,omitempty"`
}

// DesignFound is one design with the changes that put it into the job.
type DesignFound struct {
	*design.Design
	Set []Set `json:"set"`
}

// DesignFailed says why there is no design of a type.
type DesignFailed struct {
	Type string `json:"type"`
	Say  string `json:"say"`
}

// Designed is the reply to the call design, and its partial answers.
type Designed struct {
	Findings   []job.Finding  `json:"findings"`
	Partial    bool           `json:"partial,omitempty"`
	Designs    []DesignFound  `json:"designs"`
	Failed     []DesignFailed `json:"failed"`
	Alignments []design.Named `json:"alignments"`
}

func (e *Engine) design(ctx context.Context, request []byte, progress func(Progress)) (Reply, error) {
	var req DesignRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	out := Designed{Findings: job.Check(req.Job), Designs: []DesignFound{}, Failed: []DesignFailed{}, Alignments: []design.Named{}}
	if req.Sub < 0 || req.Sub >= len(req.Job.Subs) {
		return Reply{}, &Error{BadRequest, "There is no such sub in this job."}
	}
	if job.HasError(designable(out.Findings, req.Sub)) {
		return reply(out, nil)
	}
	var room *design.Room
	if req.Bounds.Fits {
		r, err := design.RoomOf(req.Job)
		if err != nil {
			return Reply{}, &Error{BadRequest, "The space in the boot: " + err.Error() + "."}
		}
		room = &r
	}
	if named, err := design.Alignments(req.Job, req.Sub); err == nil {
		out.Alignments = named
	}
	types := req.Types
	if len(types) == 0 {
		types = design.Types()
	}
	const steps = 100 // of progress for each type
	for n, typ := range types {
		say := "Trying boxes: " + design.Name(typ)
		d, err := design.Find(ctx, e.solver, design.Task{
			Job: req.Job, Sub: req.Sub, Type: typ, Goal: req.Goal, Bounds: req.Bounds.Bounds, Room: room, Rough: req.Rough,
			Watch: func(done, of int) {
				if progress != nil {
					progress(Progress{Done: n*steps + steps*done/max(of, 1), Of: steps * len(types), Say: say})
				}
			},
		})
		switch {
		case ctx.Err() != nil:
			return Reply{}, cancelled()
		case err != nil:
			out.Failed = append(out.Failed, DesignFailed{typ, err.Error()})
		default:
			d.Cost = finite(d.Cost)
			out.Designs = append(out.Designs, DesignFound{d, changes(req.Sub, d)})
		}
		if progress != nil && n < len(types)-1 {
			partial := out
			partial.Partial = true
			if so, err := wire.Encode(partial); err == nil {
				progress(Progress{Done: (n + 1) * steps, Of: steps * len(types), Say: say, SoFar: so})
			}
		}
	}
	slices.SortStableFunc(out.Designs, func(a, b DesignFound) int { return cmp.Compare(a.Cost, b.Cost) })
	return reply(out, nil)
}

// designable leaves out what is wrong with the box and the place that are to be
// replaced.
func designable(found []job.Finding, sub int) []job.Finding {
	at := fmt.Sprintf("/subs/%d/", sub)
	return slices.DeleteFunc(slices.Clone(found), func(f job.Finding) bool {
		return strings.HasPrefix(f.At, at+"box") || strings.HasPrefix(f.At, at+"place")
	})
}

func changes(sub int, d *design.Design) []Set {
	at := fmt.Sprintf("/subs/%d", sub)
	return []Set{{at + "/box", d.Box}, {at + "/place", d.Place}}
}
