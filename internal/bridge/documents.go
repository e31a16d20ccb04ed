package bridge

import (
	"encoding/base64"

	"bootfloor/internal/job"
)

// CheckRequest is a job file as it came, hostile until read.
type CheckRequest struct {
	Text string `json:"text"`
}

// Checked is the reply to the calls check, new and unpack: a job that can be
// worked with, and what was found in it.
type Checked struct {
	Job          *job.Job      `json:"job,omitempty"`
	Findings     []job.Finding `json:"findings"`
	MigratedFrom *int          `json:"migrated_from,omitempty"`
}

// check reads a job file. A file that is no job at all is a bad request.
func (e *Engine) check(request []byte) (Reply, error) {
	var req CheckRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	o, err := job.Open([]byte(req.Text))
	if err != nil {
		return Reply{}, &Error{BadRequest, err.Error()}
	}
	out := Checked{Job: &o.Job, Findings: append(o.Findings, job.Check(o.Job)...)}
	if o.From < job.Version {
		out.MigratedFrom = &o.From
	}
	return reply(out, nil)
}

// NewRequest names the body style of a new job.
type NewRequest struct {
	Body string `json:"body"`
}

func (e *Engine) newJob(request []byte) (Reply, error) {
	var req NewRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	if _, ok := job.FindBody(req.Body); !ok {
		return Reply{}, &Error{BadRequest, "There is no such body style; choose one of those offered."}
	}
	j := job.New(req.Body)
	return reply(Checked{Job: &j, Findings: job.Check(j)}, nil)
}

// JobRequest carries a job.
type JobRequest struct {
	Job job.Job `json:"job"`
}

// Text is the reply to the calls encode and pack.
type Text struct {
	Text string `json:"text"`
}

// encode writes a job as a file.
func (e *Engine) encode(request []byte) (Reply, error) {
	var req JobRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	b, err := job.Encode(req.Job)
	if err != nil {
		return Reply{}, &Error{BadRequest, err.Error()}
	}
	return reply(Text{string(b)}, nil)
}

// pack writes a job as the few characters of a link.
func (e *Engine) pack(request []byte) (Reply, error) {
	var req JobRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	b, err := job.Pack(req.Job)
	if err != nil {
		return Reply{}, &Error{BadRequest, err.Error()}
	}
	return reply(Text{base64.RawURLEncoding.EncodeToString(b)}, nil)
}

// unpack reads the job of a link, hostile until read.
func (e *Engine) unpack(request []byte) (Reply, error) {
	var req CheckRequest
	if err := read(request, &req); err != nil {
		return Reply{}, err
	}
	b, err := base64.RawURLEncoding.DecodeString(req.Text)
	if err != nil {
		return Reply{}, &Error{BadRequest, "This link holds no job: it has been cut short or changed on its way."}
	}
	j, found, err := job.Unpack(b)
	if err != nil {
		return Reply{}, &Error{BadRequest, err.Error()}
	}
	return reply(Checked{Job: &j, Findings: append(found, job.Check(j)...)}, nil)
}
