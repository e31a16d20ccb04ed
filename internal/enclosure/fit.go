package enclosure

import (
	"fmt"
	"math"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
)

// Ported is a port worked out: what a builder needs to know of it.
type Ported struct {
	Name      string  // "port", "front port", "rear port"
	LengthMM  float64 // of one, along its centre line
	TuningHz  float64
	AreaCM2   float64 // of all together
	VolumeL   float64 // air inside all of them, which their chamber does not have
	Say       string  // empty where it fits; else a sentence that says what would do
	MustBend  bool    // it fits only with a bend
	StraightM float64 // the longest straight port that the box holds, m; 0 where not yet drawn
}

// PortFor works out the port of a box's rear chamber, or of its front chamber,
// in still air: its length from its tuning, or its tuning from its length. An
// error says what is missing, or that no length will do and what would.
func PortFor(b job.Box, front bool, a air.Properties) (Ported, error) {
	j, name, litres, lining := b.Port, "port", b.NetL, b.Lining
	if b.Type == "bandpass6_series" || b.Type == "bandpass6_parallel" {
		name = rearPort
	}
	if front {
		j, name, litres, lining = b.Front, frontPort, b.FrontL, 0
	}
	p, err := makePort(j, name, a, litres*1e-3, lining, 0)
	if err != nil {
		return Ported{}, err
	}
	out := Ported{Name: name, LengthMM: 1e3 * p.length, TuningHz: p.tuningHz,
		AreaCM2: 1e4 * p.area, VolumeL: 1e3 * p.area * p.length}
	out.fit(b, p, *j)
	return out, nil
}

// fit says whether the port goes into the box: straight along its longest
// inside edge with its own width left free before its inner mouth (common
// practice, no source), or bent round one corner; and that it leaves air.
func (o *Ported) fit(b job.Box, p portSize, j job.Port) {
	chamber := b.NetL
	if o.Name == frontPort {
		chamber = b.FrontL
	}
	if o.VolumeL > chamber/2 {
		o.Say = fmt.Sprintf("The %s takes %.0f litres by itself, beside a chamber of %.0f: make it narrower or tune higher.",
			o.Name, o.VolumeL, chamber)
		return
	}
	inside := [3]float64{b.WidthMM, b.HeightMM, b.DepthMM}
	for i := range inside {
		if inside[i] <= 0 {
			return
		}
		inside[i] -= 2 * b.PanelMM
	}
	// The free space before the mouth: the diameter, or a slot's short side.
	bore := j.DiameterMM
	if j.Shape == "slot" {
		bore = math.Min(j.WidthMM, j.HeightMM)
	}
	longest := math.Max(inside[0], math.Max(inside[1], inside[2]))
	sum := inside[0] + inside[1] + inside[2]
	least := math.Min(inside[0], math.Min(inside[1], inside[2]))
	second := sum - longest - least
	// Lengths count from the outer face, so the panel is part of the port.
	straight := longest + b.PanelMM - bore
	bent := longest + second + b.PanelMM - 2*bore
	o.StraightM = math.Max(0, straight) * 1e-3
	switch {
	case bore >= least:
		o.Say = fmt.Sprintf("The %s is %.0f mm across and the box only %.0f mm inside: take several narrower ports or a flatter slot.",
			o.Name, bore, least)
	case o.LengthMM <= straight:
	case o.LengthMM <= bent:
		o.MustBend = true
		o.Say = fmt.Sprintf("The %s is %.0f mm long; the box holds %.0f mm straight. Bend it once, measuring along its centre line, or %s.",
			o.Name, o.LengthMM, straight, o.shorter(p, straight))
	default:
		o.Say = fmt.Sprintf("The %s is %.0f mm long; the box holds %.0f mm even with one bend: %s, make the box larger, or use a passive radiator.",
			o.Name, o.LengthMM, bent, o.shorter(p, bent))
	}
}

// shorter says how much less area brings the port down to a length, mm, by the
// lumped proportion of area to length with its end corrections; the air that
// it then passes is faster.
func (o *Ported) shorter(p portSize, mm float64) string {
	// The ends shrink with the root of the area, so a fixed point is found in
	// a few steps.
	ends := (p.innerEnd + p.outerEnd) * 1e3
	want := 1.0
	for range 20 {
		want = (mm + ends*math.Sqrt(want)) / (o.LengthMM + ends)
	}
	return fmt.Sprintf("take %.0f %% of its area (the air in it is faster then), tune higher", 100*want)
}
