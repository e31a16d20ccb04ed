package bridge

import (
	"context"
	"encoding/json"
	"testing"

	"bootfloor/internal/job"
)

// BenchmarkEvaluate is what one step of a drag costs the engine: the job in as
// JSON, the curves out, the car unchanged.
func BenchmarkEvaluate(b *testing.B) {
	e := New("test")
	j := job.Demo()
	var requests [10][]byte
	for i := range requests {
		j.Subs[0].Box.NetL = 20 + float64(i)
		requests[i], _ = json.Marshal(EvaluateRequest{Job: j})
	}
	for i := 0; b.Loop(); i++ {
		if _, err := e.Call(context.Background(), "evaluate", requests[i%10], nil); err != nil {
			b.Fatal(err)
		}
	}
}
