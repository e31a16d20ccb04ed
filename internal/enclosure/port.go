package enclosure

import (
	"fmt"
	"math"

	"bootfloor/internal/air"
	"bootfloor/internal/job"
	"bootfloor/internal/network"
)

// portSize is a port in SI: count alike ducts side by side, with area the sum
// of them all.
type portSize struct {
	count              int
	area               float64 // all together, m2
	perimeter          float64 // all together, m
	length             float64 // m
	innerEnd, outerEnd float64 // end corrections, m
	beyond             float64 // mass of air outside the mouth, kg/m4
	tuningHz           float64
	qp                 float64
}

func (p portSize) duct(a air.Properties) network.Duct {
	return network.Duct{Air: a, Length: p.length, Area: p.area, Perimeter: p.perimeter}
}

// makePort reads a port and finds what is left open: its length from its
// tuning with the chamber, or its tuning from its length. The length runs along
// the centre line, round any bend: at low frequency a bend is as long as its
// centre line to within a part of its width.
func makePort(j *job.Port, name string, a air.Properties, volume, lining, beyond float64) (portSize, error) {
	if j == nil {
		return portSize{}, fmt.Errorf("the %s is missing: give its size and tuning", name)
	}
	p, err := portSection(*j, name)
	if err != nil {
		return p, err
	}
	p.beyond = beyond
	cab := network.Compliance(a, volume, lining)
	switch {
	case j.LengthMM > 0:
		p.length = j.LengthMM * 1e-3
		p.tuningHz = tuning(a, p, cab)
	case j.TuningHz > 0:
		p.tuningHz = j.TuningHz
		p.length, err = lengthFor(a, p, cab, name)
	default:
		err = fmt.Errorf("the %s needs a tuning frequency or a length", name)
	}
	return p, err
}

// mouthArea returns the area (m2) of a port that is all that is seen of a box.
func mouthArea(j *job.Port, name string) (float64, error) {
	if j == nil {
		return 0, fmt.Errorf("the %s is missing: give its size and tuning", name)
	}
	p, err := portSection(*j, name)
	return p.area, err
}

// portSection fills in areas and end corrections. Several ports count as far
// enough apart not to feel each other's ends.
func portSection(j job.Port, name string) (portSize, error) {
	p := portSize{count: max(j.Count, 1), qp: j.QP}
	n := float64(p.count)
	var flanged, free, wall float64 // end corrections of one
	switch j.Shape {
	case "round":
		r := j.DiameterMM * 1e-3 / 2
		p.area, p.perimeter = n*math.Pi*r*r, n*2*math.Pi*r
		flanged, free = network.FlangedEnd*r, network.FreeEnd*r
		// A wall along the pipe mirrors it: a pipe of twice the area.
		wall = network.FlangedEnd * r * math.Sqrt2
	case "slot":
		w, h := j.WidthMM*1e-3, j.HeightMM*1e-3
		p.area, p.perimeter = n*w*h, n*2*(w+h)
		flanged = network.RectangularEnd(w, h)
		free = flanged * network.FreeEnd / network.FlangedEnd
		// One long side of the slot is a panel of the box that goes on past
		// its mouth: the slot and its image make one of twice the height.
		wall = network.RectangularEnd(w, 2*h)
	default:
		return p, fmt.Errorf("the %s is neither round nor a slot", name)
	}
	if !(p.area > 0) {
		return p, fmt.Errorf("the %s has no area: give its diameter, or its width and height", name)
	}
	switch j.Ends {
	case "flanged_flanged":
		p.innerEnd, p.outerEnd = flanged, flanged
	case "free_free":
		p.innerEnd, p.outerEnd = free, free
	case "wall":
		p.innerEnd, p.outerEnd = wall, flanged
	default: // the usual port: flush outside, standing free inside
		p.innerEnd, p.outerEnd = free, flanged
	}
	return p, nil
}

// reactance returns the imaginary part of the impedance of the port, with both
// end corrections, between a chamber and still air.
func reactance(a air.Properties, p portSize, w float64) float64 {
	var z [4]complex128
	p.duct(a).Impedance(0, w, z[:])
	in := complex(0, w*a.Density*p.innerEnd/p.area)
	out := complex(0, w*(a.Density*p.outerEnd/p.area+p.beyond))
	return imag(in + z[0] - z[1]*z[2]/(z[3]+out))
}

// tuning returns fb: where the reactances of chamber and port cancel. The
// bracket starts below the lumped value c/(2 pi) sqrt(S/(V Leff)), which the
// duct's own compliance and its boundary layer lower by a per cent or so.
func tuning(a air.Properties, p portSize, cab float64) float64 {
	leff := p.length + p.innerEnd + p.outerEnd + p.beyond*p.area/a.Density
	w0 := math.Sqrt(p.area / (a.Density * leff * cab))
	f := func(w float64) float64 { return reactance(a, p, w) - 1/(w*cab) }
	return bisect(f, 0.5*w0, 1.1*w0) / (2 * math.Pi)
}

// lengthFor returns the length (m) that tunes a chamber to fb, or an error
// that says what would do.
func lengthFor(a air.Properties, p portSize, cab float64, name string) (float64, error) {
	w := 2 * math.Pi * p.tuningHz
	lumped := p.area/(a.Density*w*w*cab) - p.innerEnd - p.outerEnd - p.beyond*p.area/a.Density
	const shortest = 0.010
	at := func(l float64) float64 {
		p.length = l
		return reactance(a, p, w) - 1/(w*cab)
	}
	if at(shortest) > 0 {
		return shortest, fmt.Errorf("the %s cannot be short enough for %.3g Hz: make it wider, or the tuning lower", name, p.tuningHz)
	}
	// A pipe near a quarter of a wave is a line, no longer a port: its length
	// hardly depends on the chamber any more.
	longest := math.Min(1.2*lumped+0.05, 0.2*a.SpeedOfSound/p.tuningHz-p.innerEnd-p.outerEnd)
	if longest < shortest || at(longest) < 0 {
		return shortest, fmt.Errorf("the %s would be longer than a fifth of a wave at %.3g Hz: make it narrower, or the box larger", name, p.tuningHz)
	}
	return bisect(at, shortest, longest), nil
}

// HelmholtzLength returns the lumped port length (m) for a volume (m3), area
// (m2) and tuning (Hz): c^2 S/((2 pi fb)^2 V) less the two end corrections
// (m). It is the handbook's formula, kept as a check on the exact one.
func HelmholtzLength(c, volume, area, fb, ends float64) float64 {
	w := 2 * math.Pi * fb
	return c*c*area/(w*w*volume) - ends
}

// bisect finds the root of a function that rises through zero.
func bisect(f func(float64) float64, lo, hi float64) float64 {
	for range 60 {
		mid := (lo + hi) / 2
		if f(mid) < 0 {
			lo = mid
		} else {
			hi = mid
		}
		if hi-lo < 1e-10*hi {
			break
		}
	}
	return (lo + hi) / 2
}
