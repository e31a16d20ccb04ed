package bridge

import (
	"context"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"bootfloor/internal/job"
)

// The workshop's half of a job sheet for the demo: the cut list adds up to the
// box, the supply plan names a fuse no larger than its cable, and the cautions
// are there.
func TestPlanOfTheDemo(t *testing.T) {
	b, err := json.Marshal(PlanRequest{Job: job.Demo()})
	if err != nil {
		t.Fatal(err)
	}
	r, err := New("test").Call(context.Background(), "plan", b, nil)
	if err != nil {
		t.Fatal(err)
	}
	var p Plan
	if err := json.Unmarshal(r.JSON, &p); err != nil {
		t.Fatal(err)
	}
	if len(p.Boxes) != 1 || p.Boxes[0].Say != "" {
		t.Fatalf("%+v", p.Boxes)
	}
	box := p.Boxes[0]
	var pieces int
	var panels float64
	for _, q := range box.Panels {
		pieces += q.Count
		panels += float64(q.Count) * q.LengthMM * q.WidthMM * q.ThickMM * 1e-6
	}
	outside := box.WidthMM * box.HeightMM * box.DepthMM * 1e-6
	if pieces != 6 || math.Abs(panels+box.GrossL-outside) > 0.02 {
		t.Errorf("%d panels of %.2f l and %.2f l of air make %.2f l outside", pieces, panels, box.GrossL, outside)
	}
	if math.Abs(box.NetL-25) > 1 {
		t.Errorf("%.2f l net, 25 asked for", box.NetL)
	}
	if !strings.Contains(box.Restraint, "local") || !strings.Contains(p.Hearing, "dB") {
		t.Errorf("cautions: %q, %q", box.Restraint, p.Hearing)
	}
	if p.Supply == nil || p.Supply.FuseA < p.Supply.LastA || p.Supply.AreaMM2 < 10 {
		t.Errorf("supply %+v", p.Supply)
	}
}
