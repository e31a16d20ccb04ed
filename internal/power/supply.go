package power

import (
	"fmt"
	"math"
)

// Supply is the run from the battery to the amplifiers.
type Supply struct {
	SineA    float64 // A, all amplifiers at their limit with a steady tone
	LastingA float64 // A, what loud programme draws on average; the fuse carries it
	AreaMM2  float64 // of the cable to lay
	Fuse     Fuse
	DropV    float64 // at LastingA, there and back
	DropPct  float64 // of the supply
	Say      string  // one sentence
}

// PlanSupply chooses cable and fuse for amplifiers that draw together what the
// Draws add up to (Programme at a crest of CrestLoudBassDB), over a run of
// runM metres each way from a supply of supplyV volts. The cable is the
// smallest standard one that keeps the drop within UsualDropPct and may be
// fused for the current, with the return as long and as thick; a body return
// is shorter and better. Insulation and ambient are CableInsulationC and
// CableAmbientC.
func PlanSupply(draws []Draw, runM, supplyV float64) (Supply, error) {
	var s Supply
	for _, d := range draws {
		s.SineA += d.Sine
		s.LastingA += d.Programme
	}
	if !(s.LastingA > 0) || math.IsInf(s.SineA, 1) {
		return Supply{}, fmt.Errorf("the amplifiers draw %g A in all; state their power, efficiency and supply voltage", s.LastingA)
	}
	if !(runM > 0 && supplyV > 0) || math.IsInf(runM, 1) {
		return Supply{}, fmt.Errorf("the supply run is %g m at %g V; give positive numbers", runM, supplyV)
	}
	area, ok := AreaForDrop(s.LastingA, runM, CableAmbientC, supplyV, UsualDropPct)
	if !ok {
		return Supply{}, fmt.Errorf("%.0f A over %.1f m loses more than %d %% in the thickest standard cable; put the battery nearer or share the load", s.LastingA, runM, UsualDropPct)
	}
	var err error
	for _, c := range carried {
		if c.area < area {
			continue
		}
		if s.Fuse, err = ChooseFuse(s.LastingA, c.area, CableInsulationC, CableAmbientC); err == nil {
			s.AreaMM2 = c.area
			break
		}
	}
	if s.AreaMM2 == 0 {
		if err == nil {
			err = fmt.Errorf("%.0f A over %.1f m needs a cable above %g mm2; share it between two amplifiers with a cable and fuse each", s.LastingA, runM, carried[len(carried)-1].area)
		}
		return Supply{}, err
	}
	s.DropV, s.DropPct = Drop(s.LastingA, runM, s.AreaMM2, CableAmbientC, supplyV)
	colour := ""
	if s.Fuse.Colour != "" {
		colour = ", " + s.Fuse.Colour
	}
	s.Say = fmt.Sprintf("About %.0f A in loud programme (%.0f A with a steady tone): %g mm2 copper cable, fused at %g A (%s%s); %.2f V (%.1f %%) are lost over %.1f m there and back. %s",
		s.LastingA, s.SineA, s.AreaMM2, s.Fuse.RatingA, s.Fuse.Type, colour, s.DropV, s.DropPct, runM, Caution)
	return s, nil
}
