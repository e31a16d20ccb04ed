package bridge

import (
	"context"

	"bootfloor/internal/job"
	"bootfloor/internal/tune"
)

// LearnRequest is a measured response as text, hostile until read, and what
// was playing when it was taken.
type LearnRequest struct {
	Job        job.Job      `json:"job"`
	Text       string       `json:"text"`
	Seat       string       `json:"seat"`
	Playing    tune.Playing `json:"playing"`
	Calibrated bool         `json:"calibrated"`
	WithinDB   float64      `json:"within_db,omitempty"`
	DriveDB    float64      `json:"drive_db,omitempty"`
	On         string       `json:"on"` // date of the measurement
}

// LearnReply is what one measurement taught. Read is the measurement as it was
// understood; Learned is absent when only reading was asked for.
type LearnReply struct {
	Findings []job.Finding    `json:"findings"`
	Read     tune.Measurement `json:"read"`
	Result   *tune.Learned    `json:"result,omitempty"`
}

// readMeasurement answers the call read_measurement, at once: what was understood of
// the text, before anything is taken from it.
func (e *Engine) readMeasurement(request []byte) (Reply, error) {
	var req LearnRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	m, err := tune.ReadMeasurement(req.Text)
	if err != nil {
		return Reply{}, &Error{BadRequest, job.Sentence(err)}
	}
	return reply(LearnReply{Read: m}, nil)
}

func (e *Engine) learn(ctx context.Context, request []byte, progress func(Progress)) (Reply, error) {
	var req LearnRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	out := LearnReply{Findings: job.Check(req.Job)}
	if job.HasError(out.Findings) {
		return reply(out, nil)
	}
	var err error
	if out.Read, err = tune.ReadMeasurement(req.Text); err != nil {
		return Reply{}, &Error{BadRequest, job.Sentence(err)}
	}
	out.Read.Seat, out.Read.Playing, out.Read.Calibrated = req.Seat, req.Playing, req.Calibrated
	out.Read.WithinDB, out.Read.DriveDB = req.WithinDB, req.DriveDB
	l, err := tune.Learn(ctx, e.solver, req.Job, out.Read, tune.Options{On: req.On}, steps(progress, "Learning the cabin"))
	if err != nil {
		return Reply{}, failed(ctx, err)
	}
	out.Result = &l
	return reply(out, nil)
}

// JoinRequest asks how sub and doors are best joined.
type JoinRequest struct {
	Job     job.Job          `json:"job"`
	Options tune.JoinOptions `json:"options"`
}

// JoinReply is the recommended joining.
type JoinReply struct {
	Findings []job.Finding `json:"findings"`
	Result   *tune.Joined  `json:"result,omitempty"`
}

func (e *Engine) join(ctx context.Context, request []byte, progress func(Progress)) (Reply, error) {
	var req JoinRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	out := JoinReply{Findings: job.Check(req.Job)}
	if job.HasError(out.Findings) {
		return reply(out, nil)
	}
	r, err := tune.Join(ctx, e.solver, req.Job, req.Options, steps(progress, "Joining sub and doors"))
	if err != nil {
		return Reply{}, failed(ctx, err)
	}
	out.Result = &r
	return reply(out, nil)
}

// EqualiseRequest asks for a few cuts that bring the sum nearer its target.
type EqualiseRequest struct {
	Job     job.Job              `json:"job"`
	Options tune.EqualiseOptions `json:"options"`
}

// EqualiseReply holds them.
type EqualiseReply struct {
	Findings []job.Finding   `json:"findings"`
	Result   *tune.Equalised `json:"result,omitempty"`
}

func (e *Engine) equalise(ctx context.Context, request []byte, progress func(Progress)) (Reply, error) {
	var req EqualiseRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	out := EqualiseReply{Findings: job.Check(req.Job)}
	if job.HasError(out.Findings) {
		return reply(out, nil)
	}
	r, err := tune.Equalise(ctx, e.solver, req.Job, req.Options, steps(progress, "Setting the equaliser"))
	if err != nil {
		return Reply{}, failed(ctx, err)
	}
	out.Result = &r
	return reply(out, nil)
}

// steps turns progress in numbers into progress with words.
func steps(progress func(Progress), say string) func(done, of int) {
	if progress == nil {
		return nil
	}
	return func(done, of int) { progress(Progress{Done: done, Of: of, Say: say}) }
}

// failed tells a stopped call from one that could not be answered.
func failed(ctx context.Context, err error) *Error {
	if ctx.Err() != nil {
		return cancelled()
	}
	return &Error{BadRequest, job.Sentence(err)}
}
