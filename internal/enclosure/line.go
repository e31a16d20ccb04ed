package enclosure

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

func init() {
	register(Kind{Key: "line", Name: "Quarter-wave line", Reads: []string{"line", "tap_mm", "isobaric", "between_l"}, assemble: line})
}

// line is a cone that feeds a chain of ducts, straight or flared, folded or
// not, at any place between the closed end and the mouth; cone and mouth are
// both heard. Lengths run along the centre line. A fold adds nothing of its
// own. The mouth has the end correction of a square opening in a wide wall.
func line(s Setting, u Unit, b job.Box) (Parts, error) {
	toward, behind, err := linePieces(b)
	if err != nil {
		return Parts{}, err
	}
	mouthArea := toward[len(toward)-1].End
	side := math.Sqrt(mouthArea)
	end := s.Air.Density * network.RectangularEnd(side, side) / mouthArea

	out := s.outlet(outsideOf(b), u.Area)
	tuned := s.Lines.of(s.Air, toward, behind, end+out.gapMass())
	id := s.Net.AddBody(tuned.line)
	p := drive(s, u, network.Door{Body: id, Index: 0}, out.door)
	mouth := s.Net.Join(network.Door{Body: id, Index: 1}, out.beside(u.Area, mouthArea), network.Inertance{Mass: end})
	p.SystemHz = tuned.hz
	p.Vents = []Vent{{Name: "mouth", Mouth: mouth, Area: mouthArea, LengthM: lineLength(toward), TuningHz: p.SystemHz}}
	p.radiates(out, p.Cone, mouth)
	return p, nil
}

// linePieces splits the pieces of a line where the cone stands: those from
// there to the mouth, and those from there to the closed end.
func linePieces(b job.Box) (toward, behind []network.Section, err error) {
	if len(b.Line) == 0 {
		return nil, nil, errors.New("the line has no pieces: give the length and the areas of at least one")
	}
	at := 0.0 // distance from the closed end, m
	tap := b.TapMM * 1e-3
	for i, j := range b.Line {
		s := network.Section{Length: j.LengthMM * 1e-3, Start: j.StartCM2 * 1e-4, End: j.EndCM2 * 1e-4,
			Fibre: network.Polyester(j.Stuffing)}
		if !(s.Length > 0 && s.Start > 0 && s.End > 0) {
			return nil, nil, fmt.Errorf("piece %d of the line has no size: give its length and both areas", i+1)
		}
		const least = 1e-3 // a shorter piece than this is left out
		switch d := tap - at; {
		case d <= least:
			toward = append(toward, s)
		case d >= s.Length-least:
			behind = append(behind, s)
		default:
			root := math.Sqrt(s.Start) + (math.Sqrt(s.End)-math.Sqrt(s.Start))*d/s.Length
			before, after := s, s
			before.Length, before.End = d, root*root
			after.Length, after.Start = s.Length-d, root*root
			behind = append(behind, before)
			toward = append(toward, after)
		}
		at += s.Length
	}
	if len(toward) == 0 {
		return nil, nil, fmt.Errorf("the cone stands at the mouth of the line, %.0f mm from its closed end: place it further in", 1000*at)
	}
	// From the cone backward.
	slices.Reverse(behind)
	for i := range behind {
		s := &behind[i]
		s.Start, s.End = s.End, s.Start
	}
	return toward, behind, nil
}

func lineLength(pieces []network.Section) float64 {
	var sum float64
	for _, s := range pieces {
		sum += s.Length
	}
	return sum
}

// lineResonance returns the lowest resonance (Hz) of a line as its cone meets
// it: where the bare line, its mouth loaded with the mass of the air outside,
// answers the cone with the most pressure. Of a straight line fed at its closed
// end it is c/(4 (L + end correction)), less what the boundary layer takes.
func lineResonance(a air.Properties, toward, behind []network.Section, endMass float64) float64 {
	bare := func(in []network.Section) []network.Section {
		out := slices.Clone(in)
		for i := range out {
			out[i].Fibre = network.Fibre{}
		}
		return out
	}
	l := network.NewLine(a, bare(toward), bare(behind))
	// Below the resonance the mouth is a mass that the cone pushes on: the
	// reactance is positive; it passes through infinity to negative.
	susceptance := func(w float64) float64 {
		var z [4]complex128
		l.Impedance(0, w, z[:])
		in := z[0] - z[1]*z[2]/(z[3]+complex(0, w*endMass))
		return imag(1 / in)
	}
	w := lowestOf(a, toward, behind, endMass)
	const step = 1.05
	for range 300 {
		if susceptance(w*step) > 0 {
			break
		}
		w *= step
	}
	return bisect(susceptance, w, w*step) / (2 * math.Pi)
}

// lowestOf returns an angular frequency below every resonance of a line: that
// of all its air as one spring on all its mass, including that at the mouth,
// with a tenth off for what the walls add to both. With C(x) the compliance up
// to x, the inequality of Cauchy and Schwarz in Rayleigh's quotient for the flow
// gives 1/w0^2 < integral of C dM < C M.
func lowestOf(a air.Properties, toward, behind []network.Section, endMass float64) float64 {
	mass, compliance := endMass, 0.0
	for _, pieces := range [2][]network.Section{toward, behind} {
		for _, s := range pieces {
			root := math.Sqrt(s.Start * s.End)
			mass += a.Density * s.Length / root
			compliance += s.Length * (s.Start + root + s.End) / 3 / a.BulkModulus()
		}
	}
	return 0.9 / math.Sqrt(compliance*mass)
}
