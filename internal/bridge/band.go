package bridge

import (
	"context"
	"math"
	"sort"

	"bootfloor/internal/advise"
	"bootfloor/internal/job"
	"bootfloor/internal/system"
	"bootfloor/internal/wire"
)

// BandRequest asks how sure the response of a job is.
type BandRequest struct {
	Job     job.Job `json:"job"`
	Samples int     `json:"samples,omitempty"` // 0 is the usual number
}

// Spread is the 10th and the 90th percentile of a number.
type Spread struct {
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

// Banded is the reply to the call band: curves named band_low/<id> and
// band_high/<id> over their own freq, and the spread of the answer.
type Banded struct {
	Findings []job.Finding `json:"findings"`
	Samples  int           `json:"samples"`
	ReachHz  Spread        `json:"reach_hz"`
	LevelDB  Spread        `json:"level_db"`
	Curves   []CurveMeta   `json:"curves"`
}

func (e *Engine) band(ctx context.Context, request []byte, progress func(Progress)) (Reply, error) {
	var req BandRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	n := req.Samples
	if n <= 0 || n > 200 {
		n = system.BandSamples
	}
	out := Banded{Findings: job.Check(req.Job)}
	if job.HasError(out.Findings) {
		return reply(out, nil)
	}
	b, found := e.solver.Band(ctx, req.Job, n, func(done int) {
		if progress != nil {
			progress(Progress{Done: done, Of: n, Say: "How sure"})
		}
	})
	if ctx.Err() != nil {
		return Reply{}, cancelled()
	}
	if b == nil {
		out.Findings = append(out.Findings, found...)
		return reply(out, nil)
	}
	out.Samples = len(b.Samples)
	var reach, level []float64
	for _, r := range b.Samples {
		a := advise.Answers(req.Job, r)
		reach, level = append(reach, a.ReachHz), append(level, a.LevelDB)
	}
	out.ReachHz, out.LevelDB = spread(reach), spread(level)
	curves := []system.Curve{{ID: "freq", Name: "Frequency", Unit: "Hz", Values: b.Hz}}
	for i := range b.Low {
		low, high := b.Low[i], b.High[i]
		low.ID, high.ID = "band_low/"+low.ID, "band_high/"+high.ID
		curves = append(curves, low, high)
	}
	var floats []float64
	out.Curves, floats = flatten(curves)
	return reply(out, floats)
}

func spread(v []float64) Spread {
	sort.Float64s(v)
	return Spread{Low: finite(system.Percentile(v, 0.1)), High: finite(system.Percentile(v, 0.9))}
}

// finite keeps JSON, which has no infinity, from refusing an answer.
func finite(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return v
}

func read(request []byte, into any) error {
	if err := wire.Decode(request, into); err != nil {
		return &Error{BadRequest, "The question to the engine could not be read: " + err.Error() + "."}
	}
	return nil
}

func cancelled() *Error { return &Error{Cancelled, "Stopped."} }
