package driver

import (
	"fmt"
	"math"
)

// handWork is the by-hand method applied to a curve.
type handWork struct {
	steps        []Step
	notes        []string
	fs, qes, qms float64
	ok           bool
}

// without returns the curve with the readings within half an octave of a place
// levelled to the lowest among them, so that other peaks can be looked for.
func (c Curve) without(at int) Curve {
	out := Curve{Hz: c.Hz, Ohm: append([]float64(nil), c.Ohm...)}
	// Walk down both flanks to the dips.
	lo, hi := at, at
	for lo > 0 && c.Ohm[lo-1] <= c.Ohm[lo]*1.02 {
		lo--
	}
	for hi < len(c.Ohm)-1 && c.Ohm[hi+1] <= c.Ohm[hi]*1.02 {
		hi++
	}
	floor := math.Max(c.Ohm[lo], c.Ohm[hi])
	for i := lo; i <= hi; i++ {
		out.Ohm[i] = math.Min(out.Ohm[i], floor)
	}
	return out
}

// byHand does with the curve what a fitter does with a meter.
func (fit *curveFit) byHand(c Curve) handWork {
	at, _ := c.peak()
	fs, top := c.summit(at)
	re := fit.fitted().Re.Value
	level := math.Sqrt(re * top)
	f1, ok1 := c.crossing(at, -1, level)
	f2, ok2 := c.crossing(at, 1, level)
	if !ok1 || !ok2 {
		return handWork{notes: []string{"The curve does not reach far enough on both sides of the resonance to do it by hand; the fit does not need that."}}
	}
	qms, qes, _, steps, err := ByHand(Readings{Re: re, Fs: fs, Zmax: top, F1: f1, F2: f2})
	if err != nil {
		return handWork{notes: []string{"By hand: " + err.Error() + "."}}
	}
	h := handWork{steps: steps, fs: fs, qms: qms, qes: qes, ok: true}
	if middle := math.Sqrt(f1 * f2); math.Abs(middle/fs-1) > 0.02 {
		h.notes = append(h.notes, fmt.Sprintf("By hand, √(f1·f2) is %s Hz but the peak is at %s Hz: the curve is not even about its peak, so trust the fit more.", figures(middle), figures(fs)))
	}
	return h
}

// summit reads the peak between the points, by a parabola in log frequency
// through the highest three.
func (c Curve) summit(at int) (hz, ohm float64) {
	if at == 0 || at == len(c.Ohm)-1 {
		return c.Hz[at], c.Ohm[at]
	}
	x0, x1, x2 := math.Log(c.Hz[at-1]), math.Log(c.Hz[at]), math.Log(c.Hz[at+1])
	y0, y1, y2 := c.Ohm[at-1], c.Ohm[at], c.Ohm[at+1]
	if x0 == x1 || x1 == x2 {
		return c.Hz[at], y1
	}
	d1, d2 := (y1-y0)/(x1-x0), (y2-y1)/(x2-x1)
	bend := (d2 - d1) / (x2 - x0)
	if bend >= 0 {
		return c.Hz[at], y1
	}
	x := math.Max(x0, math.Min(x2, (x0+x1)/2-d1/(2*bend)))
	return math.Exp(x), y0 + d1*(x-x0) + bend*(x-x0)*(x-x1)
}

// second adds what the second curve tells.
func (f *Fitted) second(two Fitted, hand2, hand1 handWork, opt FitOptions) error {
	fs, fs2 := f.Fs.Value, two.Fs.Value
	w := twoPi * fs
	if opt.AddedMass != 0 {
		mms, _, err := MassByHand(fs, fs2, opt.AddedMass)
		if err != nil {
			return err
		}
		// Mms = m/(x^2-1), x = fs/f': d ln Mms = -2 x^2/(x^2-1) d ln x.
		x2 := fs * fs / (fs2 * fs2)
		f.Mms = Estimate{mms, mms * 2 * x2 / (x2 - 1) * math.Hypot(f.Fs.Share(), two.Fs.Share())}
		if hand1.ok && hand2.ok {
			if _, steps, err := MassByHand(hand1.fs, hand2.fs, opt.AddedMass); err == nil {
				f.Steps = append(f.Steps, steps...)
			}
		}
		// More mass on the same spring and motor: both Q values rise as fs falls.
		if e := two.Qes.Value*fs2/(f.Qes.Value*fs) - 1; math.Abs(e) > 0.08 {
			f.Notes = append(f.Notes, fmt.Sprintf("With the mass on, Qes should have become %s but is %s: check that nothing else changed between the two curves.",
				figures(f.Qes.Value*fs/fs2), figures(two.Qes.Value)))
		}
	} else {
		vas, _, err := BoxByHand(fs, f.Qes.Value, fs2, two.Qes.Value, opt.BoxVolume)
		if err != nil {
			return err
		}
		rise := 1 + vas/opt.BoxVolume
		spread := math.Hypot(math.Hypot(f.Fs.Share(), two.Fs.Share()), math.Hypot(f.Qes.Share(), two.Qes.Share()))
		f.Vas = Estimate{vas, vas * rise / (rise - 1) * spread}
		if hand1.ok && hand2.ok {
			if _, steps, err := BoxByHand(hand1.fs, hand1.qes, hand2.fs, hand2.qes, opt.BoxVolume); err == nil {
				f.Steps = append(f.Steps, steps...)
			}
		}
		// With the same moving mass Qec/Qes equals fc/fs; the box changes the
		// air load a little, a leak a lot.
		if e := two.Qes.Value*fs/(f.Qes.Value*fs2) - 1; math.Abs(e) > 0.12 {
			f.Notes = append(f.Notes, fmt.Sprintf("In the box, Qec should be about %s but is %s: look for a leak or lining in the box.",
				figures(f.Qes.Value*fs2/fs), figures(two.Qes.Value)))
		}
		if opt.Sd > 0 {
			if !(opt.Bulk > 0) {
				panic("driver: Fit with a box wants the stiffness of the air")
			}
			cms := f.Vas.Value / (opt.Bulk * opt.Sd * opt.Sd)
			mms := 1 / (w * w * cms)
			f.Mms = Estimate{mms, mms * math.Hypot(f.Vas.Share(), 2*f.Fs.Share())}
		}
	}
	if f.Mms.Value == 0 {
		f.Notes = append(f.Notes, "With the cone area entered, moving mass, force factor and compliance follow as well.")
		return nil
	}
	mms := f.Mms.Value
	cms := 1 / (w * w * mms)
	f.Cms = Estimate{cms, cms * math.Hypot(f.Mms.Share(), 2*f.Fs.Share())}
	rms := w * mms / f.Qms.Value
	f.Rms = Estimate{rms, rms * math.Hypot(f.Mms.Share(), f.Qms.Share())}
	bl := math.Sqrt(w * mms * f.Re.Value / f.Qes.Value)
	f.Bl = Estimate{bl, bl / 2 * math.Hypot(f.Mms.Share(), math.Hypot(f.Qes.Share(), f.Re.Share()))}
	if f.Vas.Value == 0 {
		if opt.Sd > 0 {
			if !(opt.Bulk > 0) {
				panic("driver: Fit with mass and area wants the stiffness of the air")
			}
			vas := opt.Bulk * opt.Sd * opt.Sd * cms
			f.Vas = Estimate{vas, vas * f.Cms.Share()}
		} else {
			f.Notes = append(f.Notes, "With the cone area entered, Vas follows as well.")
		}
	}
	return nil
}
