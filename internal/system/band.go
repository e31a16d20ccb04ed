package system

import (
	"context"
	"math"
	"sort"
	"strings"

	"bootfloor/internal/job"
)

// BandGrid is coarser than the curves' own: a band is smooth, and is drawn
// many times over.
var BandGrid = Grid{FromHz: 10, ToHz: 250, Points: 120}

// BandSamples is how many variations make a band.
const BandSamples = 24

// Band is how sure a response is: for each curve of the response, the 10th and
// the 90th percentile over the variations.
type Band struct {
	Hz      []float64
	Low     []Curve
	High    []Curve
	Samples []*Response // one for each variation, on the band's grid
}

// dimensions of the space of variations: length, leak, damping and the four
// of a driver.
const dimensions = 7

// Variations returns n points spread evenly over the tolerances, the same
// every time: an additive recurrence whose steps are powers of the root of
// x^(d+1) = x + 1, the generalised golden ratio, which fills d dimensions with
// low discrepancy (after Kronecker's and Weyl's sequences; the choice of root
// is from memory of M. Roberts, 2018).
func Variations(t job.Tolerance, mean float64, n int) []Variation {
	root := 1.0
	for range 60 {
		root = math.Pow(1+root, 1.0/(dimensions+1))
	}
	out := make([]Variation, n)
	for i := range out {
		var u [dimensions]float64
		step := 1.0
		for d := range u {
			step /= root
			_, u[d] = math.Modf(0.5 + step*float64(i+1))
		}
		out[i] = Variation{
			Length:  1 + (2*u[0]-1)*t.TapeMM*1e-3/mean,
			Leak:    ratio(t.LeakPct, u[1]),
			Damping: ratio(t.DampingPct, u[2]),
			Driver:  u[3:],
		}
	}
	return out
}

// ratio spreads u over a factor that is as likely to divide as to multiply.
func ratio(pct, u float64) float64 {
	return math.Pow(1+pct/100, 2*u-1)
}

// What a dimension that nobody measured may be out by, and a driver of which
// only the size class is known. Assumed.
const (
	assumedTapeMM = 120
	typicalPct    = 20
)

// likely returns the tolerances of a job, widened where a value is not of this
// car or driver but only usual: a car taken from its body style is known far
// less well than a tape measure knows it.
func likely(j job.Job) job.Tolerance {
	t := j.Tolerance
	assumed := 0
	for _, at := range j.Assumed {
		if strings.HasPrefix(at, "/car/cabin/") {
			assumed++
		}
	}
	if all := dimensionsOf(j.Car.Cabin); all > 0 {
		share := math.Min(1, float64(assumed)/float64(all))
		t.TapeMM = math.Max(t.TapeMM, share*assumedTapeMM)
	}
	for _, s := range j.Subs {
		if s.Driver.Typical {
			t.FsPct, t.QPct, t.VasPct = math.Max(t.FsPct, typicalPct), math.Max(t.QPct, typicalPct), math.Max(t.VasPct, typicalPct)
		}
	}
	return t
}

// dimensionsOf counts the numbers that give a cabin its shape.
func dimensionsOf(c job.Cabin) int {
	if c.Shape == "stations" {
		return 4 * len(c.Stations)
	}
	return 3
}

// Band solves n variations of a job. It stops early, with what it has, when
// the context ends; progress, which may be nil, is called after each.
func (s *Solver) Band(ctx context.Context, j job.Job, n int, progress func(done int)) (*Band, []job.Finding) {
	b := &Band{}
	for i, v := range Variations(likely(j), meanM(j.Car.Cabin), n) {
		if ctx.Err() != nil {
			break
		}
		r, found := s.varied.respond(j, BandGrid, v)
		if r == nil {
			return nil, found
		}
		b.Samples = append(b.Samples, r)
		if progress != nil {
			progress(i + 1)
		}
	}
	if len(b.Samples) == 0 {
		return nil, nil
	}
	b.Hz = b.Samples[0].Hz
	b.Low, b.High = edges(b.Samples)
	return b, nil
}

// meanM is the size that a tape's error is a share of, m: the mean of the three
// dimensions, or that of a usual cabin where stations give the shape.
func meanM(c job.Cabin) float64 {
	mean := 1e-3 * math.Cbrt(c.LengthMM*c.WidthMM*c.HeightMM)
	if !(mean > 0.1) {
		mean = 1.5
	}
	return mean
}

// edges returns the 10th and the 90th percentile of every curve with a unit.
func edges(samples []*Response) (lows, highs []Curve) {
	at := make([]float64, len(samples))
	for i, c := range samples[0].Curves {
		if c.Unit == "" || c.ID == "freq" {
			continue
		}
		low, high := make([]float64, len(c.Values)), make([]float64, len(c.Values))
		for k := range low {
			for n, r := range samples {
				at[n] = r.Curves[i].Values[k]
			}
			sort.Float64s(at)
			low[k], high[k] = Percentile(at, 0.1), Percentile(at, 0.9)
		}
		lows = append(lows, Curve{c.ID, c.Name, c.Unit, low})
		highs = append(highs, Curve{c.ID, c.Name, c.Unit, high})
	}
	return lows, highs
}

// Percentile returns the value below which the share p of sorted values lies,
// linear between them.
func Percentile(sorted []float64, p float64) float64 {
	x := p * float64(len(sorted)-1)
	i := int(x)
	if i+1 >= len(sorted) {
		return sorted[len(sorted)-1]
	}
	return sorted[i] + (x-float64(i))*(sorted[i+1]-sorted[i])
}
