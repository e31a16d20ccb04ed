// Package bridge is the engine as the page sees it: named calls, JSON in, JSON
// and one flat array of numbers out. It knows nothing of browsers, so that
// every call is tested natively.
package bridge

import (
	"context"
	"fmt"

	"bootfloor/internal/job"
	"bootfloor/internal/system"
	"bootfloor/internal/wire"
)

// Engine answers calls. Make one with New. It may keep what it has computed
// between calls; it is not safe for concurrent use.
type Engine struct {
	version string
	solver  *system.Solver
}

// New returns an engine that states the given version.
func New(version string) *Engine {
	return &Engine{version: version, solver: system.NewSolver()}
}

// Reply is what a call returns: a JSON object, and the numbers its offsets
// and lengths point into.
type Reply struct {
	JSON   []byte
	Floats []float64
}

// Progress is how far a long call has come: Done of Of steps, in a few words.
// SoFar, where not nil, is a JSON value: the best answer yet.
type Progress struct {
	Done  int
	Of    int
	Say   string
	SoFar []byte
}

// Kinds of Error. The page adds superseded, crashed and version_mismatch.
const (
	BadRequest = "bad_request"
	Cancelled  = "cancelled"
	Internal   = "internal"
)

// Error is a failed call: Kind for the program, Say for the reader.
type Error struct {
	Kind string `json:"kind"`
	Say  string `json:"say"`
}

func (e *Error) Error() string { return e.Kind + ": " + e.Say }

// A short call returns at once and never blocks. A long one reports progress
// and may be cancelled.
type (
	short func(e *Engine, request []byte) (Reply, error)
	long  func(e *Engine, ctx context.Context, request []byte, progress func(Progress)) (Reply, error)
)

var shortCalls = map[string]short{
	"hello":    func(e *Engine, _ []byte) (Reply, error) { return e.hello() },
	"evaluate": (*Engine).evaluate,
	"map":      (*Engine).mapped,
	"plan":     (*Engine).plan,

	"check":  (*Engine).check,
	"new":    (*Engine).newJob,
	"encode": (*Engine).encode,
	"pack":   (*Engine).pack,
	"unpack": (*Engine).unpack,

	"quick":     (*Engine).quick,
	"questions": func(e *Engine, _ []byte) (Reply, error) { return e.questions() },
	"compare":   (*Engine).compare,

	"shelf":            (*Engine).shelf,
	"sheet":            (*Engine).sheet,
	"fit":              (*Engine).fit,
	"read_measurement": (*Engine).readMeasurement,
}

var longCalls = map[string]long{
	"band":   (*Engine).band,
	"design": (*Engine).design,
	"which":  (*Engine).which,
	"remedies": func(e *Engine, _ context.Context, request []byte, _ func(Progress)) (Reply, error) {
		return e.remedies(request)
	},
	"learn":    (*Engine).learn,
	"join":     (*Engine).join,
	"equalise": (*Engine).equalise,
}

// Long tells whether the named call may take so long that it reports progress
// and may be cancelled. All others return at once and never block.
func Long(name string) bool {
	_, ok := longCalls[name]
	return ok
}

// Call runs the named call. The progress function may be nil. An error is
// always an *Error.
func (e *Engine) Call(ctx context.Context, name string, request []byte, progress func(Progress)) (Reply, error) {
	if run, ok := shortCalls[name]; ok {
		return run(e, request)
	}
	if run, ok := longCalls[name]; ok {
		return run(e, ctx, request, progress)
	}
	return Reply{}, &Error{BadRequest, fmt.Sprintf("The engine knows no call named %q.", name)}
}

// Hello is the reply to the call hello.
type Hello struct {
	Version  string           `json:"version"`
	Bodies   []job.Body       `json:"bodies"`
	Finishes []job.FinishName `json:"finishes"`
	Limits   []job.Limit      `json:"limits"`
	Demo     job.Job          `json:"demo"`
}

func (e *Engine) hello() (Reply, error) {
	return reply(Hello{
		Version: e.version, Bodies: job.Bodies(), Finishes: job.Finishes(),
		Limits: job.Limits(), Demo: job.Demo(),
	}, nil)
}

func reply(v any, floats []float64) (Reply, error) {
	b, err := wire.Encode(v)
	if err != nil {
		return Reply{}, &Error{Internal, "The answer could not be written: " + err.Error()}
	}
	return Reply{JSON: b, Floats: floats}, nil
}
