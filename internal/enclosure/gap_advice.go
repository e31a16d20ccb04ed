package enclosure

import (
	"fmt"
	"math"
)

// Say tells, in a sentence, that the gap lets out less air than the cone moves
// through, and what height would do; empty where it lets out enough. That the
// open edge should be at least as large as the cone is common practice, no
// source: the model above knows only what the gap's mass and friction do.
func (g *Gap) Say() string {
	if g == nil || g.AreaRatio >= 1 {
		return ""
	}
	need := math.Pi * g.InnerM * g.InnerM / (2 * math.Pi * g.OuterM)
	return fmt.Sprintf("The gap of %.0f mm opens only %.0f %% of the cone's area; %.0f mm would open all of it.",
		1e3*g.HeightM, 100*g.AreaRatio, math.Ceil(1e3*need))
}

// SagSay tells, in a sentence, that a cone which lies flat hangs so far from
// its rest that its travel suffers; empty where it does not or where nothing
// is known. A twentieth of the travel is common practice, no source. Lengths
// in m.
func SagSay(sag, xmax float64) string {
	const share = 0.05
	if !(xmax > 0) || sag <= share*xmax {
		return ""
	}
	return fmt.Sprintf("Lying flat, the cone hangs %.1f mm from its rest, %.0f %% of its travel of %.1f mm: turn it through half a turn now and then, fire it sideways, or choose one with a stiffer suspension.",
		1e3*sag, 100*sag/xmax, 1e3*xmax)
}
