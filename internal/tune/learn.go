package tune

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sort"

	"bootfloor/internal/job"
	"bootfloor/internal/system"
)

// Options say how to learn.
type Options struct {
	On string // the date of the measurement, kept with what was learned
	// FromHz and ToHz bound the readings used; zero is 5 and 200 Hz.
	FromHz, ToHz float64
}

// Value is one thing that the measurement was asked about. Factors are on what
// the document states.
type Value struct {
	Key   string  `json:"key"`  // leak | damping | volume | level
	Unit  string  `json:"unit"` // "" for a factor, dB for the level
	Value float64 `json:"value"`
	// Sigma is the standard uncertainty: of the logarithm of a factor (0.1 is
	// about ten per cent), or in dB.
	Sigma float64 `json:"sigma"`
	// PriorSigma is the same before the measurement.
	PriorSigma float64 `json:"prior_sigma"`
	Verdict    Verdict `json:"verdict"`
	Say        string  `json:"say"`
}

// Verdict is how well the data could tell a value.
type Verdict string

// A value that is told lies, nineteen times in twenty, within a fifth of the
// truth. One that is told roughly is much better known than before, though not
// so well. One that cannot be told stays as it was.
const (
	Told    Verdict = "told"
	Roughly Verdict = "roughly"
	Untold  Verdict = "untold"
)

// Learned is what a measurement taught.
type Learned struct {
	Learned job.Learned `json:"learned"` // to be kept with the car
	Values  []Value     `json:"values"`
	// MicrophoneDB is the level of an uncalibrated measurement over the
	// predicted one; it belongs to the microphone, not to the car.
	MicrophoneDB float64 `json:"microphone_db"`
	// BeforeDB and AfterDB are the rms differences between measured and
	// predicted level, before and after learning; of an uncalibrated
	// measurement with the level matched.
	BeforeDB float64 `json:"before_db"`
	AfterDB  float64 `json:"after_db"`

	Hz       []float64 `json:"hz"`
	Measured []float64 `json:"measured"` // dB, averaged over 1/24 octave
	Before   []float64 `json:"before"`
	After    []float64 `json:"after"`

	Said []string `json:"said"`
}

// Learn fits leak, damping, effective volume and level of a job's cabin to a
// measurement, starting from the cabin as stated, whatever was learned before.
// A value that the data cannot tell stays as it was. Progress, which may be
// nil, hears of each of a few rounds. The error, of a job that cannot be
// solved, a measurement that cannot be used or a context that ended, says what
// is wrong.
func Learn(ctx context.Context, s *system.Solver, j job.Job, m Measurement, o Options, progress func(done, of int)) (Learned, error) {
	if progress == nil {
		progress = func(int, int) {}
	}
	l, err := newLearner(s, j, m, o)
	if err != nil {
		return Learned{}, err
	}
	const rounds = 4
	progress(0, rounds)
	if err := l.start(); err != nil {
		return Learned{}, err
	}
	// The noise of the readings is not known beforehand: guess it, fit, and
	// see what is left.
	l.fit.noise = 2
	for round := range 2 {
		if err := l.solve(ctx); err != nil {
			return Learned{}, err
		}
		l.fit.noise = noiseOf(l.out.residual)
		l.cabin.sizeMouth(l.factors(l.out.x)[leak])
		progress(round+1, rounds)
	}
	if err := l.solve(ctx); err != nil {
		return Learned{}, err
	}
	progress(3, rounds)
	if l.out.covariance == nil {
		return Learned{}, errors.New("the measurement and the job together do not settle anything; check which speakers played and which seat was measured")
	}
	verdict, held := l.judge()
	if held {
		for i, v := range verdict {
			if v == Untold {
				l.fit.free[i], l.out.x[i] = false, 0
			}
		}
		keep := l.out.covariance
		if err := l.solve(ctx); err != nil {
			return Learned{}, err
		}
		l.out.covariance = keep // what is held is uncertain all the same
	}
	progress(rounds, rounds)
	return l.result(verdict), nil
}

// learner is one run of Learn.
type learner struct {
	j     job.Job
	m     Measurement
	o     Options
	r     readings
	cabin *cabin
	hz    []float64 // of the grid
	sigma [nParameters]float64
	asked [nParameters]bool
	// quarterHz is the frequency at which the cabin is a quarter wave long.
	quarterHz float64
	zero      float64 // level to which the level parameter is counted, dB
	fit       fit
	out       outcome

	before []float64
}

func newLearner(s *system.Solver, j job.Job, m Measurement, o Options) (*learner, error) {
	if !(o.FromHz > 0) {
		o.FromHz = learnFromHz
	}
	if !(o.ToHz > 0) {
		o.ToHz = learnToHz
	}
	if len(m.Hz) != len(m.LevelDB) {
		return nil, errors.New("the measurement has not as many levels as frequencies; read it again")
	}
	for _, column := range [][]float64{m.Hz, m.LevelDB, {m.DriveDB, m.WithinDB, m.SmoothedOctave}} {
		for _, v := range column {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return nil, errors.New("the measurement holds a value that is not a number; read it again")
			}
		}
	}
	if m.SmoothedOctave < 0 || m.SmoothedOctave > 1 {
		return nil, fmt.Errorf("the smoothing is given as %g octaves; between 0 and 1 would do", m.SmoothedOctave)
	}
	if err := m.enough(); err != nil {
		return nil, err
	}
	if !sort.Float64sAreSorted(m.Hz) {
		return nil, errors.New("the frequencies of the measurement do not rise; read it again")
	}
	l := &learner{j: j, m: m, o: o, r: prepare(m, o.FromHz, o.ToHz)}
	if len(l.r.hz) < fewestReadings/2 {
		return nil, errors.New("too few different frequencies lie in the range to learn from; a sweep from 10 to 200 Hz would do")
	}
	var err error
	if l.cabin, err = newCabin(s, j, m, l.r.grid); err != nil {
		return nil, err
	}
	l.hz = l.r.grid.Hz()
	l.quarterHz = speedOfSound(j.Air) / (4e-3 * lengthMM(j.Car.Cabin))
	var bound [nParameters]float64
	l.sigma, bound = believed(j, m)
	l.asked = [nParameters]bool{j.Car.Finish.LeakCM2 > 0, true, true, true}
	l.fit = fit{predict: l.predict, data: l.r.db, weight: l.r.weight, trust: l.trust}
	for i := range nParameters {
		l.fit.low = append(l.fit.low, -bound[i]/l.sigma[i])
		l.fit.high = append(l.fit.high, bound[i]/l.sigma[i])
		l.fit.free = append(l.fit.free, l.asked[i])
	}
	return l, nil
}

// trust believes the leak only where the cabin is shorter than a quarter of a
// wave. There all leaks add up wherever they are; higher up the prediction
// depends on where it puts them, which nobody measured.
func (l *learner) trust(parameter, reading int) float64 {
	if parameter == leak && l.r.hz[reading] > l.quarterHz {
		return 0
	}
	return 1
}

// start predicts the cabin as stated and matches the level of an uncalibrated
// measurement.
func (l *learner) start() error {
	l.out.x = make([]float64, nParameters)
	y, err := l.predict(l.out.x)
	if err != nil {
		return err
	}
	if !l.m.Calibrated {
		l.zero = median(l.fit.data, y)
	}
	l.before = y
	for i := range y {
		y[i] += l.zero
	}
	return nil
}

func (l *learner) solve(ctx context.Context) error {
	out, err := l.fit.solve(ctx, l.out.x)
	if err == nil {
		l.out = out
	}
	return err
}

// predict is the level at the readings for whitened parameters.
func (l *learner) predict(x []float64) ([]float64, error) {
	f := l.factors(x)
	db, err := l.cabin.predict(f[leak], f[damping], f[volume])
	if err != nil {
		return nil, err
	}
	y := l.r.atReadings(l.hz, db)
	for i := range y {
		y[i] += l.zero + f[level] + l.m.DriveDB
	}
	return y, nil
}

// factors undoes the whitening.
func (l *learner) factors(x []float64) [nParameters]float64 {
	var f [nParameters]float64
	for i := range f {
		f[i] = x[i] * l.sigma[i]
		if i != level {
			f[i] = math.Exp(f[i])
		}
	}
	return f
}

// judge reports what the data told, and whether they left anything untold.
func (l *learner) judge() (verdict [nParameters]Verdict, held bool) {
	for i := range verdict {
		narrowed := math.Sqrt(l.out.covariance.At(i, i))
		switch {
		case !l.asked[i] || narrowed > toldShare || i == volume && !l.m.Calibrated:
			// The shape alone can tell a volume only through how sharply the
			// leak resonates, and that rests on gaps of an assumed width.
			verdict[i], held = Untold, true
		case i != level && narrowed*l.sigma[i] > toldSigma:
			verdict[i] = Roughly
		default:
			verdict[i] = Told
		}
	}
	return verdict, held
}
