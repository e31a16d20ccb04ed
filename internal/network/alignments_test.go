package network

import (
	"math"
	"math/cmplx"
	"testing"
)

// The whole circuit of a lossless or leaky vented box, cone, chamber, port,
// leak and coil, is a fourth-order Butterworth high-pass where theory says so:
// QT = 1/(A1 - 1/QL), alpha = sqrt 2 - 1/(QL QT), fb = fs with
// A1 = sqrt(4 + 2 sqrt 2) (Small 1973, from the node equations).
func TestButterworthVentedBox(t *testing.T) {
	for _, ql := range []float64{math.Inf(1), 7, 3} {
		qt := 1 / (math.Sqrt(4+2*math.Sqrt2) - 1/ql)
		alpha := math.Sqrt2 - 1/(ql*qt)
		const fs, qms = 31.0, 5.0
		s := newSpeaker(fs, 1/(1/qt-1/qms), qms)
		box := ventedBox(s, alpha, fs, ql)
		for x := 0.1; x < 12; x *= 1.1 {
			want := -10 * math.Log10(1+math.Pow(x, -8))
			near(t, "level", box.decibels(fs*x), want, 1e-6)
		}
		half := crossing(func(f float64) float64 { return box.decibels(f) + 10*math.Log10(2) }, 20, 60)
		near(t, "f3/fs", half/fs, 1, 1e-9)
	}
}

// f6 and f10 of the lossless Butterworth box over fs (recomputed).
func TestButterworthOtherPoints(t *testing.T) {
	s := newSpeaker(25, 1/math.Sqrt(4+2*math.Sqrt2), math.Inf(1))
	box := ventedBox(s, math.Sqrt2, 25, math.Inf(1))
	at := func(level float64) float64 {
		return crossing(func(x float64) float64 { return box.decibels(25*x) - level }, 0.5, 1.1)
	}
	near(t, "f6/fs", at(-6), 0.872376, 1e-6)
	near(t, "f10/fs", at(-10), 0.759836, 1e-6)
}

func TestPublishedVentedBoxes(t *testing.T) {
	for _, row := range published(t, "vented.csv") {
		v := numbers(t, row, 1)
		h, qt, alpha, f3 := v[0], v[1], v[2], v[3]
		s := newSpeaker(1, 1/(1/qt-1/6.0), 6)
		box := ventedBox(s, alpha, h, math.Inf(1))
		got := crossing(func(f float64) float64 { return box.decibels(f) + 10*math.Log10(2) }, 0.3, 4)
		near(t, row[0]+" f3/fs", got, f3, 0.002)
	}
}

func TestPublishedVentedTravel(t *testing.T) {
	qt := 1 / (math.Sqrt(4+2*math.Sqrt2) - 1.0/7)
	s := newSpeaker(30, 1/(1/qt-1/5.0), 5)
	box := ventedBox(s, math.Sqrt2-1/(7*qt), 30, 7)
	travel := func(hz float64) float64 {
		_, u, _ := box.at(hz)
		return cmplx.Abs(u) / (2 * math.Pi * hz * s.sd)
	}
	// At zero frequency the force Bl E/Re meets the suspension alone, for the
	// leak and the port let the air out of the box.
	rest := s.bl / s.re * s.cms
	for _, row := range published(t, "vented_travel.csv") {
		v := numbers(t, row, 0)
		near(t, "travel at "+row[0], travel(30*v[0])/rest, v[1], 1e-5)
	}
}

// At its tuning a lossless vented box holds the cone still.
func TestConeRestsAtTuning(t *testing.T) {
	s := newSpeaker(28, 0.4, 5)
	box := ventedBox(s, 1.5, 30, math.Inf(1))
	_, at, _ := box.at(30)
	_, beside, _ := box.at(31)
	if r := cmplx.Abs(at) / cmplx.Abs(beside); r > 1e-9 {
		t.Errorf("cone moves at the tuning: %.3g of what it does beside it", r)
	}
}

func TestPublishedClosedBoxes(t *testing.T) {
	for _, row := range published(t, "closed_box.csv") {
		v := numbers(t, row, 0)
		qtc, f3, peak, fpeak, f10 := v[0], v[1], v[2], v[3], v[4]
		const fs, alpha, qms = 25.0, 3.0, 4.0
		fc := fs * math.Sqrt(1+alpha)
		qts := qtc / math.Sqrt(1+alpha)
		box := closedBox(newSpeaker(fs, 1/(1/qts-1/qms), qms), alpha)
		level := func(x float64) float64 { return box.decibels(fc * x) }
		near(t, "f3/fc", crossing(func(x float64) float64 { return level(x) + 10*math.Log10(2) }, 0.3, 3), f3, 1e-5)
		near(t, "f10/fc", crossing(func(x float64) float64 { return level(x) + 10 }, 0.2, 3), f10, 1e-5)
		if fpeak > 0 {
			at := highest(level, 0.5, 4)
			near(t, "peak", level(at), peak, 1e-4)
			near(t, "fpeak/fc", at, fpeak, 1e-4)
		}
	}
}

// Small's worked kind of driver in three boxes (recomputed): fs 25 Hz, Qts
// 0.40, Qms 4, Vas 120 l in 20, 40 and 60 l.
func TestClosedBoxWorked(t *testing.T) {
	s := newSpeaker(25, 1/(1/0.4-0.25), 4)
	for _, c := range []struct{ vb, fc, qtc, f3, peak float64 }{
		{20, 66.1438, 1.05830, 50.7812, 1.5892},
		{40, 50.0000, 0.80000, 44.8580, 0.2130},
		{60, 43.3013, 0.69282, 44.2126, 0},
	} {
		box := closedBox(s, 120/c.vb)
		near(t, "f3", crossing(func(f float64) float64 { return box.decibels(f) + 10*math.Log10(2) }, 20, 100), c.f3, 1e-4)
		// At fc the response is j Qtc.
		g, _, _ := box.at(c.fc)
		near(t, "Qtc", cmplx.Abs(g), c.qtc, 1e-5)
		if c.peak > 0 {
			near(t, "peak", box.decibels(highest(box.decibels, c.fc*0.7, c.fc*4)), c.peak, 1e-4)
		}
	}
}

func TestPublishedPassiveRadiator(t *testing.T) {
	s := newSpeaker(25, 1/(1/0.35-1/9.0), 9)
	passive := passiveBox(s, 2, 3, 12)
	vented := ventedBox(s, 2, 24, math.Inf(1))
	for _, row := range published(t, "passive.csv") {
		v := numbers(t, row, 0)
		near(t, "passive at "+row[0], passive.decibels(v[0]), v[1], 1e-4)
		near(t, "vented at "+row[0], vented.decibels(v[0]), v[2], 1e-4)
	}
	// The notch stands exactly at the passive radiator's own resonance.
	if d := passive.decibels(12); d > -200 {
		t.Errorf("the notch is only %.1f dB deep", d)
	}
}

func TestPublishedBandpass(t *testing.T) {
	for _, row := range published(t, "bandpass.csv") {
		v := numbers(t, row, 0)
		s, q, gain, ripple, low, high := v[0], v[1], v[2], v[3], v[4], v[5]
		const qts, fs, qms = 0.35, 28.0, 5.0
		fc := fs * q / qts
		// Vf = (2 S Qts)^2 Vas, Vr = Vas/((Q/Qts)^2 - 1).
		box := bandpassBox(newSpeaker(fs, 1/(1/qts-1/qms), qms), q*q/(qts*qts)-1, 1/(4*s*s*qts*qts), fc)
		level := func(x float64) float64 { return box.decibels(fc * x) }
		centre := level(1)
		near(t, "gain", centre, gain, 1e-4)
		edge := func(x float64) float64 { return level(x) - centre + 10*math.Log10(2) }
		near(t, "fL/fc", crossing(edge, low*0.8, low*1.2), low, 1e-5)
		near(t, "fH/fc", crossing(edge, high*0.8, high*1.2), high, 1e-5)
		if ripple > 0 {
			near(t, "ripple", level(highest(level, 1, high))-centre, ripple, 1e-4)
		}
	}
}

// Impedance of a vented box without losses: the peaks fL and fH obey
// fL fH = fs fb and fL^2 + fH^2 = fs^2 (1 + alpha) + fb^2. With fs 28, fb 30,
// alpha 1.5: 16.514197 and 50.865325 Hz (recomputed).
func TestImpedancePeaks(t *testing.T) {
	s := newSpeaker(28, 0.4, math.Inf(1))
	box := ventedBox(s, 1.5, 30, math.Inf(1))
	// Without mechanical losses the peaks are poles of 1/I: the current passes
	// through zero there, its motional part changing sign.
	phase := func(f float64) float64 {
		_, _, z := box.at(f)
		return -imag(z - complex(s.re, 0))
	}
	low := crossing(phase, 14, 20)
	high := crossing(phase, 42, 60)
	near(t, "fL", low, 16.514197, 1e-6)
	near(t, "fH", high, 50.865325, 1e-6)
	near(t, "fL fH", low*high, 28*30, 1e-6)
	near(t, "fL2 + fH2", low*low+high*high, 28*28*2.5+900, 1e-5)
	// alpha from the three frequencies (Small 1973, recalled).
	const fm = 30
	near(t, "alpha", (high+fm)*(high-fm)*(fm+low)*(fm-low)/(high*high*low*low), 1.5, 1e-8)
}

// QL from three frequencies and the least impedance between the peaks (Small
// 1973): QL = h/alpha (1/(Qes (rM - 1)) - 1/Qms), with rM = Z(fM)/Re. Worked
// case recomputed.
func TestLeakFromImpedance(t *testing.T) {
	s := newSpeaker(30, 0.42, 5)
	box := ventedBox(s, 1.0613, 30, 7)
	size := func(f float64) float64 { _, _, z := box.at(f); return cmplx.Abs(z) }
	near(t, "fL", highest(size, 12, 25), 18.2058, 1e-3)
	near(t, "fH", highest(size, 40, 70), 49.4348, 1e-3)
	fm := highest(func(f float64) float64 { return -size(f) }, 25, 36)
	near(t, "fM", fm, 30, 1e-3)
	near(t, "least impedance", size(fm), 4.46110, 1e-5)
	r := size(30) / s.re
	near(t, "QL", 1/1.0613*(1/(0.42*(r-1))-1/5.0), 7, 1e-6)
}

// In free air the impedance peaks at fs with Re (1 + Qms/Qes), and Small's
// half-way method returns Qms (IEC 60268-22 gives the method; the numbers are
// recomputed).
func TestFreeAirImpedance(t *testing.T) {
	s := newSpeaker(28, 0.5, 6)
	l := &lumped{speaker: s}
	still := l.net.AddChamber(Still{})
	l.cone, l.mesh = s.drive(&l.net, still, still)
	size := func(f float64) float64 { _, _, z := l.at(f); return cmplx.Abs(z) }
	near(t, "fs", highest(size, 20, 40), 28, 1e-4)
	near(t, "Zmax/Re", size(28)/s.re, 13, 1e-9)
	level := s.re * math.Sqrt(13)
	f1 := crossing(func(f float64) float64 { return size(f) - level }, 10, 28)
	f2 := crossing(func(f float64) float64 { return size(f) - level }, 28, 60)
	near(t, "f1", f1, 20.823630, 1e-6)
	near(t, "f2", f2, 37.649536, 1e-6)
}
