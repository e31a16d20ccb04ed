package bridge

import (
	"context"
	"encoding/json"
	"strings"
	"testing"

	"bootfloor/internal/job"
)

// Whatever bytes come to any call, the engine answers with JSON or with an
// error of its own, and never panics.
func FuzzCall(f *testing.F) {
	names := []string{"hello", "evaluate", "map", "check", "new", "encode", "pack", "unpack", "plan", "quick", "sheet", "fit", "shelf", "compare", "read_measurement", "nothing"}
	demo, _ := json.Marshal(JobRequest{Job: job.Demo()})
	for i := range names {
		f.Add(i, []byte(`{}`))
		f.Add(i, demo)
		f.Add(i, []byte(`{"text":"10 sealed 25 l 500 w hatch"}`))
	}
	e := New("fuzz")
	f.Fuzz(func(t *testing.T, i int, request []byte) {
		name := names[((i%len(names))+len(names))%len(names)]
		r, err := e.Call(context.Background(), name, request, nil)
		if err != nil {
			if _, ok := err.(*Error); !ok || strings.TrimSpace(err.Error()) == "" {
				t.Fatalf("%s: %v is no error of the engine's", name, err)
			}
			return
		}
		if !json.Valid(r.JSON) {
			t.Fatalf("%s answered %q", name, r.JSON)
		}
	})
}
