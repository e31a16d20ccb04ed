package tune

import (
	"math"

	"bootfloor/internal/system"
)

// Resolution of what is compared: points of the prediction in an octave, and
// the most of them in all.
const (
	pointsPerOctave = 24
	mostPoints      = 140
)

// readings are a measurement made ready for a fit: averaged over 1/24 octave,
// with the grid on which the prediction is computed.
type readings struct {
	hz     []float64
	db     []float64
	weight []float64 // one, or less in a narrow dip
	all    []float64 // ln of every frequency used
	end    []int     // one past the last of all in each cell
	grid   system.Grid
	smooth float64 // octaves
}

// prepare averages the readings between two frequencies, in dB and in the
// logarithm of frequency, over the cells of a grid.
func prepare(m Measurement, fromHz, toHz float64) readings {
	r := readings{smooth: m.SmoothedOctave}
	low, high := math.Inf(1), 0.0
	for _, f := range m.Hz {
		if f >= fromHz && f <= toHz {
			low, high = math.Min(low, f), math.Max(high, f)
		}
	}
	var sumF, sumDB float64
	n, cell := 0, 0
	flush := func() {
		if n > 0 {
			r.hz = append(r.hz, math.Exp(sumF/float64(n)))
			r.db = append(r.db, sumDB/float64(n))
			r.end = append(r.end, len(r.all))
		}
		sumF, sumDB, n = 0, 0, 0
	}
	for i, f := range m.Hz {
		if f < low || f > high {
			continue
		}
		if c := int(math.Round(pointsPerOctave * math.Log2(f/low))); c != cell {
			flush()
			cell = c
		}
		r.all = append(r.all, math.Log(f))
		sumF += math.Log(f)
		sumDB += m.LevelDB[i]
		n++
	}
	flush()
	r.weigh()

	margin := math.Exp2(r.smooth/2) * 1.01
	r.grid = system.Grid{FromHz: math.Max(1, low/margin), ToHz: high * margin}
	r.grid.Points = int(pointsPerOctave*math.Log2(r.grid.ToHz/r.grid.FromHz)) + 2
	r.grid.Points = min(r.grid.Points, mostPoints)
	return r
}

// A reading so far below the mean power about it stands in a narrow dip, where
// a hand's width of microphone or a person more or less in the car moves the
// level by many dB: it counts a quarter.
const (
	dipDB, dipReach, dipWeight = 10, 1.0 / 3, 0.25
)

func (r *readings) weigh() {
	r.weight = make([]float64, len(r.hz))
	for i, f := range r.hz {
		var power, n float64
		for k, g := range r.hz {
			if math.Abs(math.Log2(g/f)) <= dipReach {
				power += math.Pow(10, r.db[k]/10)
				n++
			}
		}
		r.weight[i] = 1
		if 10*math.Log10(power/n)-r.db[i] > dipDB {
			r.weight[i] = dipWeight
		}
	}
}

// atReadings brings levels (dB) on the grid's frequencies to the readings:
// smoothed in power where these are, interpolated at each frequency that was
// measured, and averaged over the same cells.
func (r *readings) atReadings(gridHz, db []float64) []float64 {
	if r.smooth > 0 {
		db = smoothPower(gridHz, db, r.smooth)
	}
	n := len(gridHz)
	start := math.Log(gridHz[0])
	perStep := float64(n-1) / (math.Log(gridHz[n-1]) - start)
	out := make([]float64, len(r.end))
	i := 0
	for cell, end := range r.end {
		first := i
		for ; i < end; i++ {
			out[cell] += between(db, (r.all[i]-start)*perStep)
		}
		out[cell] /= float64(end - first)
	}
	return out
}

// between interpolates evenly spaced values at place x, counted in steps, by a
// cubic through the nearest four (E. Catmull and R. Rom, 1974): a resonance is
// rounder than straight lines between its samples.
func between(v []float64, x float64) float64 {
	k := max(0, min(int(x), len(v)-2))
	t := x - float64(k)
	b, c := v[k], v[k+1]
	a, d := 2*b-c, 2*c-b
	if k > 0 {
		a = v[k-1]
	}
	if k+2 < len(v) {
		d = v[k+2]
	}
	return b + t/2*(c-a+t*(2*a-5*b+4*c-d+t*(3*(b-c)+d-a)))
}

// smoothPower averages levels in power over a window of the given width in
// octaves about each frequency. The frequencies rise evenly in their logarithm.
func smoothPower(hz, db []float64, octaves float64) []float64 {
	step := math.Log2(hz[1] / hz[0])
	reach := int(math.Round(octaves / 2 / step))
	if reach == 0 {
		return db
	}
	top := db[0]
	for _, v := range db {
		top = math.Max(top, v)
	}
	sum := make([]float64, len(db)+1)
	for i, v := range db {
		sum[i+1] = sum[i] + math.Pow(10, (v-top)/10)
	}
	out := make([]float64, len(db))
	for i := range out {
		a, b := max(i-reach, 0), min(i+reach+1, len(db))
		out[i] = top + 10*math.Log10(math.Max((sum[b]-sum[a])/float64(b-a), 1e-30))
	}
	return out
}
