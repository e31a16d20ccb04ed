package enclosure

import (
	"strings"
	"testing"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
)

func TestGapSay(t *testing.T) {
	a := air.MustStandard()
	box := outside{width: 0.5, depth: 0.4, height: 0.3}
	gap := func(mm float64) *Gap { return newGap(job.Place{Fires: "down", GapMM: mm}, box, tSd, a) }
	say := gap(20).Say()
	// A disc of 0.2 m2 has a rim of 1.585 m: 31 mm open the 485 cm2 of the cone.
	if !strings.Contains(say, "20 mm") || !strings.Contains(say, "31 mm") || !strings.Contains(say, "65 %") {
		t.Error(say)
	}
	if s := gap(31).Say(); s != "" {
		t.Error(s)
	}
	if s := (*Gap)(nil).Say(); s != "" {
		t.Error(s)
	}
}

func TestSagSay(t *testing.T) {
	if s := SagSay(Sag(30), 0.014); s != "" {
		t.Error(s)
	}
	if s := SagSay(Sag(18), 0.010); !strings.Contains(s, "0.8 mm") || !strings.Contains(s, "8 %") {
		t.Error(s)
	}
	if s := SagSay(0.01, 0); s != "" {
		t.Error(s)
	}
}
