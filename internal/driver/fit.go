package driver

import (
	"errors"
	"fmt"
	"math"
	"math/cmplx"
)

// Estimate is a fitted value, SI, with the half-width of its 95 % interval as
// far as the scatter of the readings tells; what the model leaves out and what
// the meter reads wrong throughout are not in it.
type Estimate struct {
	Value, Plus float64
}

// Share returns the half-width as a share of the value.
func (e Estimate) Share() float64 { return e.Plus / e.Value }

// FitOptions say what is known besides the first curve.
type FitOptions struct {
	Re float64 // DC resistance by meter, ohm; zero lets the curve decide
	Sd float64 // cone area, m2; zero where not known

	// A second curve, of the same driver with AddedMass (kg) on the cone, or in
	// a closed unlined box of BoxVolume (m3). One of the two.
	Second    Curve
	AddedMass float64
	BoxVolume float64

	// Bulk is rho c^2 of the air at the time, Pa.
	Bulk float64
}

// CoilTrial tells how well one coil model explained the curve.
type CoilTrial struct {
	Model CoilModel
	RMS   float64 // misfit, share of the magnitude (and rad of phase)
	Score float64 // Schwarz's criterion: lower is better evidence
}

// Fitted is what an impedance curve told.
type Fitted struct {
	Re, Fs, Qms, Qes, Qts Estimate
	Coil                  Coil
	RMS                   float64     // misfit, as in CoilTrial
	Trials                []CoilTrial // every model that was tried
	// Zero without a second curve, or without the area they need.
	Mms, Cms, Rms, Bl, Vas, Sd Estimate
	Steps                      []Step // the same by hand, from the same curves
	Notes                      []string
}

// Fit finds the small-signal parameters that a free-air impedance curve shows,
// by least squares in the logarithm of the impedance, with the coil model that
// the curve supports best. With a second curve it also finds the moving mass
// or Vas. The error is a sentence.
func Fit(curve Curve, opt FitOptions) (Fitted, error) {
	one, err := fitCurve(curve, opt.Re)
	if err != nil {
		return Fitted{}, err
	}
	out := one.fitted()
	hand := one.byHand(curve)
	out.Steps = hand.steps
	out.Notes = append(out.Notes, one.notes...)
	out.Notes = append(out.Notes, hand.notes...)
	if opt.Re == 0 && out.Re.Share() > 0.01 {
		out.Notes = append(out.Notes, fmt.Sprintf("The curve alone gives Re only to within %.1f %%, and the Q values hang on it: measure it with a meter and enter it. A sweep from 5 Hz up, or one with phase, tells it better too.", 100*out.Re.Share()))
	}
	if opt.Sd > 0 {
		out.Sd = Estimate{Value: opt.Sd}
	}
	if opt.AddedMass == 0 && opt.BoxVolume == 0 {
		return out, nil
	}
	if opt.AddedMass != 0 && opt.BoxVolume != 0 {
		return Fitted{}, errors.New("the second curve is either with mass on the cone or in a box: enter one of the two")
	}
	two, err := fitCurve(opt.Second, out.Re.Value)
	if err != nil {
		return Fitted{}, fmt.Errorf("the second curve: %w", err)
	}
	if err := out.second(two.fitted(), two.byHand(opt.Second), hand, opt); err != nil {
		return Fitted{}, err
	}
	return out, nil
}

// State returns what was found, in the units of the keys, for Derive. Where Sd
// is not known Derive will ask for it.
func (f Fitted) State() Stated {
	s := Stated{Values: map[Key]float64{}}
	set := func(k Key, si float64) {
		if si > 0 {
			s.Values[k] = si / quantityByKey[k].SI
		}
	}
	set(KeyRe, f.Re.Value)
	set(KeyFs, f.Fs.Value)
	set(KeyQms, f.Qms.Value)
	set(KeyQes, f.Qes.Value)
	set(KeySd, f.Sd.Value)
	if f.Mms.Value > 0 {
		set(KeyMms, f.Mms.Value)
	} else {
		set(KeyVas, f.Vas.Value)
	}
	set(KeyLe, f.Coil.Le)
	set(KeyL2, f.Coil.L2)
	set(KeyR2, f.Coil.R2)
	set(KeySemiK, f.Coil.K)
	set(KeySemiN, f.Coil.N)
	return s
}

// curveFit is the fit of one curve: parameters ln Re, ln fs, ln Qms,
// ln(Qms/Qes), then those of the coil.
type curveFit struct {
	model  CoilModel
	re     float64 // held, when not zero
	best   minimum
	n      int // residuals
	trials []CoilTrial
	notes  []string
}

// coilReference is where the size of a semi-inductance is measured while
// fitting, so that size and exponent are nearly independent, rad/s.
const coilReference = 2 * math.Pi * 300

func coilOf(model CoilModel, p []float64) Coil {
	switch model {
	case CoilPlain:
		return Coil{Le: math.Exp(p[0])}
	case CoilLossy:
		return Coil{Le: math.Exp(p[0]), L2: math.Exp(p[1]), R2: math.Exp(p[2])}
	case CoilSemi:
		// The sine keeps the exponent between 0.3 and 1.
		n := 0.65 + 0.35*math.Sin(p[1])
		return Coil{K: math.Exp(p[0]) / math.Pow(coilReference, n), N: n}
	}
	return Coil{}
}

// coilStarts are where the search for each model begins, given the size of the
// inductive part, H.
func coilStarts(model CoilModel, l float64) [][]float64 {
	ln := math.Log
	switch model {
	case CoilPlain:
		return [][]float64{{ln(l)}}
	case CoilLossy:
		return [][]float64{
			{ln(l / 2), ln(l), ln(l * coilReference)},
			{ln(l / 3), ln(2 * l), ln(l * coilReference * 3)},
			{ln(l / 2), ln(l / 2), ln(l * coilReference / 3)},
		}
	case CoilSemi:
		return [][]float64{{ln(l * coilReference), 0}, {ln(l * coilReference), 0.8}}
	}
	return [][]float64{nil}
}

func fitCurve(curve Curve, re float64) (*curveFit, error) {
	if len(curve.Hz) < 8 || len(curve.Ohm) != len(curve.Hz) {
		return nil, errors.New("the impedance curve needs at least 8 points")
	}
	at, height := curve.peak()
	if height < 1.15 {
		return nil, errors.New("no resonance was found: the curve should rise to a peak and fall again; measure from about 10 Hz to 500 Hz or more, with the driver in free air")
	}
	fs := curve.Hz[at]
	fit := &curveFit{re: re}
	if other, h := curve.without(at).peak(); h > 1.3 {
		fit.notes = append(fit.notes, fmt.Sprintf("There is a second peak near %s Hz, as in a vented box or with something loose on the cone: hang the driver in free air, nothing near it.",
			figures(curve.without(at).Hz[other])))
	}
	// Far above resonance only the coil speaks, and a model of two or three
	// numbers cannot follow it to the top of hearing: keep to what bass needs.
	top := math.Max(3000, 50*fs)
	data := curve.below(top, mostPoints)
	inside := 0
	for _, hz := range data.Hz {
		if hz > fs/2 && hz < fs*2 {
			inside++
		}
	}
	if inside < 6 {
		return nil, fmt.Errorf("only %d points lie within an octave of the resonance at %s Hz; measure at least 6 there, 30 are better", inside, figures(fs))
	}
	low := data.Ohm[0]
	for _, z := range data.Ohm {
		low = math.Min(low, z)
	}
	if re == 0 {
		re = low * 0.97
	}
	last := len(data.Hz) - 1
	inductance := math.Max(0.1*re, math.Sqrt(math.Max(0, data.Ohm[last]*data.Ohm[last]-re*re))) / (twoPi * data.Hz[last])
	ratio := math.Max(0.1, curve.Ohm[at]/re-1)

	bestScore := math.Inf(1)
	// The cone as the plainer coil models found it starts the search of the
	// next one; only the first tries several Q values.
	cones := [][]float64{{math.Log(re), math.Log(fs), math.Log(2), math.Log(ratio)}, {math.Log(re), math.Log(fs), math.Log(7), math.Log(ratio)}}
	for _, model := range []CoilModel{CoilNone, CoilPlain, CoilSemi, CoilLossy} {
		m := fit.search(data, model, cones, inductance)
		n := len(data.Hz)
		if data.Phase != nil {
			n *= 2
		}
		free := float64(len(m.p))
		// Readings are never better than a part in ten thousand: below that
		// a further parameter explains nothing.
		mean := m.sum/float64(n) + readingError*readingError
		score := float64(n)*math.Log(mean) + free*math.Log(float64(n))
		fit.trials = append(fit.trials, CoilTrial{model, math.Sqrt(m.sum / float64(n)), score})
		if score < bestScore && n > len(m.p)+1 {
			bestScore, fit.model, fit.best, fit.n = score, model, m, n
		}
		if model == CoilPlain {
			cone := m.p[:4]
			if fit.re > 0 {
				cone = append([]float64{math.Log(re)}, m.p[:3]...)
			}
			cones = [][]float64{cone}
		}
	}
	if math.IsInf(bestScore, 1) {
		return nil, errors.New("the curve does not look like the impedance of a loudspeaker")
	}
	if fit.re == 0 {
		fit.extend(curve, top)
	}
	if rms := math.Sqrt(fit.best.sum / float64(fit.n)); rms > 0.1 {
		fit.notes = append(fit.notes, fmt.Sprintf("The best fit is %.0f %% off on average: check that the driver hung free, that the level was low, and that the columns are ohms.", 100*rms))
	}
	return fit, nil
}

// search runs the fit of one model from several places and returns the best.
func (fit *curveFit) search(data Curve, model CoilModel, cones [][]float64, inductance float64) minimum {
	held := 0
	if fit.re > 0 {
		held = 1 // ln Re is not a parameter
	}
	residuals, n := fit.misfit(data, model)
	best := minimum{sum: math.Inf(1)}
	for _, coil := range coilStarts(model, inductance) {
		for _, cone := range cones {
			p := append(append([]float64(nil), cone[held:]...), coil...)
			if m := leastSquares(residuals, n, p); m.sum < best.sum {
				best = m
			}
		}
	}
	return best
}

// misfit returns what a model leaves of a curve as a function of its
// parameters, and how many residuals there are: those of ln |Z|, then those of
// the phase where it was measured.
func (fit *curveFit) misfit(data Curve, model CoilModel) (func(p, r []float64), int) {
	size := len(data.Hz)
	n := size
	if data.Phase != nil {
		n *= 2
	}
	logOhm := make([]float64, size)
	for i, ohm := range data.Ohm {
		logOhm[i] = math.Log(ohm)
	}
	return func(p, r []float64) {
		z := fit.impedance(model, p)
		for i, hz := range data.Hz {
			got := z(hz)
			r[i] = math.Log(real(got)*real(got)+imag(got)*imag(got))/2 - logOhm[i]
			if data.Phase != nil {
				r[size+i] = cmplx.Phase(got) - data.Phase[i]
			}
		}
	}, n
}

// impedance returns the model's impedance as a function of frequency, Hz:
// Re + coil + Re (Qms/Qes)/(1 + j Qms (f/fs - fs/f)), Small 1972.
func (fit *curveFit) impedance(model CoilModel, p []float64) func(hz float64) complex128 {
	re := fit.re
	if re == 0 {
		re, p = math.Exp(p[0]), p[1:]
	}
	fs, qms, res := math.Exp(p[0]), math.Exp(p[1]), re*math.Exp(p[2])
	coil := coilOf(model, p[3:])
	return func(hz float64) complex128 {
		motional := complex(res, 0) / complex(1, qms*(hz/fs-fs/hz))
		return complex(re, 0) + coil.Impedance(twoPi*hz) + motional
	}
}

// fitted turns the logarithms and their covariance into values.
func (fit *curveFit) fitted() Fitted {
	p := fit.best.p
	held := 0
	if fit.re > 0 {
		held = 1
	}
	variance := fit.best.sum / float64(max(1, fit.n-len(p)))
	// estimate is exp of a weighted sum of the logarithms.
	estimate := func(weights map[int]float64) Estimate {
		log, v := 0.0, 0.0
		for i, w := range weights {
			log += w * p[i]
			for j, u := range weights {
				if fit.best.covariance != nil {
					v += w * u * fit.best.covariance.At(i, j)
				}
			}
		}
		value := math.Exp(log)
		if fit.best.covariance == nil {
			return Estimate{value, value}
		}
		return Estimate{value, math.Min(1, 2*math.Sqrt(math.Max(0, v*variance))) * value}
	}
	f, q, ratio := 1-held, 2-held, 3-held
	out := Fitted{
		Fs: estimate(map[int]float64{f: 1}), Qms: estimate(map[int]float64{q: 1}),
		Qes:  estimate(map[int]float64{q: 1, ratio: -1}),
		Coil: coilOf(fit.model, p[4-held:]),
		RMS:  math.Sqrt(fit.best.sum / float64(fit.n)), Trials: fit.trials,
	}
	out.Re = Estimate{Value: fit.re}
	if held == 0 {
		out.Re = estimate(map[int]float64{0: 1})
	}
	// Qts = Qms/(1 + Qms/Qes): d ln Qts = d ln Qms - share d ln(ratio).
	r := math.Exp(p[ratio])
	out.Qts = estimate(map[int]float64{q: 1, ratio: -r / (1 + r)})
	scale := out.Qms.Value / (1 + r) / out.Qts.Value
	out.Qts = Estimate{out.Qts.Value * scale, out.Qts.Plus * scale}
	return out
}
