package system

import (
	"math"
	"testing"

	"bootfloor/internal/air"
	"bootfloor/internal/driver"
	"bootfloor/internal/job"
)

// seatM3 is what one empty seat takes out of the air, see cavity.SeatBody.
const seatM3 = 0.055

// bare is a job in a hard, tight cuboid of 3 m3 with nothing in it but one
// ear: what the textbooks calculate.
func bare() job.Job {
	j := job.Demo()
	j.Car.Cabin = job.Cabin{Shape: "cuboid", LengthMM: 2000, WidthMM: 1250, HeightMM: 1200}
	j.Car.Finish = job.Finish{Floor: "metal", Roof: "metal", Sides: "metal", Front: "metal", Rear: "metal"}
	// Hard for good: even steel has some admittance.
	j.Car.Learned = &job.Learned{LeakScale: 1, DampingScale: 1e-9, VolumeScale: 1}
	j.Car.Seats = nil
	j.Car.Openings = nil
	j.Doors.Fitted = false
	j.Subs[0].Place = job.Place{XMM: 1900, YMM: 0, ZMM: 300, Fires: "rear"}
	j.Subs[0].Channel.Filters = nil
	return j
}

// levelPerLitre returns the level that the sub makes at a point for each litre of
// peak volume displacement, at one frequency.
func levelPerLitre(t *testing.T, j job.Job, hz float64) float64 {
	t.Helper()
	s := NewSolver()
	j.Car.Seats = []job.Seat{{ID: "ear", XMM: 900, YMM: 200, ZMM: 700}}
	b, _, m, found := s.assemble(j, []float64{2 * math.Pi * hz}, asStated, true)
	if job.HasError(found) {
		t.Fatal(found)
	}
	sol := b.net.Solve(m.omega)
	u := m.flow(b, sol, []int{0})[0]
	p := m.sum(sol.Pressure, 0, []int{0})[0]
	litres := math.Sqrt2 * math.Hypot(real(u), imag(u)) / m.omega[0] * 1e3
	return decibels(p, Reference) - 20*math.Log10(litres)
}

// One litre of peak displacement in 3 m3 makes rho c^2 Vd/V: 124.46 dB (rms,
// rho 1.2041, c 343.2; recomputed from the adiabatic law). The box takes its
// own volume out, so the cabin here is that much larger. The test runs at 2 Hz,
// 40 times under the first mode, where the mode's share is below 0.01 dB.
func TestPressureZone(t *testing.T) {
	j := bare()
	out := grossM3(j.Subs[0].Box) + seatM3
	j.Car.Cabin.HeightMM *= (3 + out) / 3
	a := air.MustStandard()
	got := levelPerLitre(t, j, 2)
	// The published figure is for its own air.
	want := 124.462 + 20*math.Log10(a.BulkModulus()/(1.2041*343.2*343.2))
	if math.Abs(got-want) > 0.03 {
		t.Errorf("1 l in 3 m3 makes %.3f dB, want %.3f", got, want)
	}
}

// What the car adds tends to 2 pi c^2/(w^2 V) below the first mode, 12 dB per
// octave (recomputed), and that asymptote crosses 0 dB at 79.05 Hz for 3 m3,
// c = 343.2 m/s (recomputed).
func TestGainAsymptote(t *testing.T) {
	j := bare()
	j.Car.Cabin.HeightMM *= (3 + grossM3(j.Subs[0].Box)) / 3
	j.Car.Seats = []job.Seat{{ID: "wheel", XMM: 1200, YMM: 300, ZMM: 900}}
	j.Car.Cabin.HeightMM *= (3 + seatM3) / 3
	s := NewSolver()
	r, found := s.Respond(j, Grid{FromHz: 3, ToHz: 6, Points: 2})
	if r == nil {
		t.Fatal(found)
	}
	g := r.Find("gain/wheel")
	if slope := g[0] - g[1]; math.Abs(slope-12.04) > 0.15 {
		t.Errorf("the gain falls %.2f dB in the octave from 3 Hz, want 12.04", slope)
	}
	if want := 79.049 * air.MustStandard().SpeedOfSound / 343.2; math.Abs(r.Cabin.UnityHz-want) > 0.05 {
		t.Errorf("unity at %.2f Hz, want %.2f", r.Cabin.UnityHz, want)
	}
	a := air.MustStandard()
	w := 2 * math.Pi * 3.0
	want := 20 * math.Log10(2*math.Pi*a.SpeedOfSound*a.SpeedOfSound/(w*w*3))
	if math.Abs(g[0]-want) > 0.15 {
		t.Errorf("gain at 3 Hz is %.2f dB, want %.2f", g[0], want)
	}
}

// Far above resonance and without a coil's inductance, the level at 1 m in
// half space is the reference sensitivity of Small (JAES 20, 1972): it depends
// on fs, Vas and Qes alone.
func TestReferenceSensitivity(t *testing.T) {
	j := bare()
	j.Subs[0].Driver.LeMH = nil
	j.Subs[0].Box.QL, j.Subs[0].Box.QA = 0, 0
	amp := &j.Subs[0].Channel.Amplifier
	amp.CableM, amp.OutputOhm = 0, 0
	amp.RatedOhm = *j.Subs[0].Driver.ReOhm
	amp.RatedW = 1
	r, found := NewSolver().Respond(j, Grid{FromHz: 100, ToHz: 2000, Points: 30})
	if r == nil {
		t.Fatal(found)
	}
	free := r.Find("level/free")
	d, _, err := driver.Derive(driver.FromJob(j.Subs[0].Driver), air.MustStandard())
	if err != nil {
		t.Fatal(err)
	}
	a := air.MustStandard()
	eta := 4 * math.Pi * math.Pi / math.Pow(a.SpeedOfSound, 3) * math.Pow(d.Fs, 3) * d.VasIn(a) / d.Qes
	want := 10*math.Log10(eta) + 10*math.Log10(a.Impedance()/(2*math.Pi*4e-10))
	if got := free[len(free)-1]; math.Abs(got-want) > 0.02 {
		t.Errorf("sensitivity %.3f dB, want %.3f", got, want)
	}
}

// A closed box of Qtc 0.7071 is 3.01 dB down at fc (Butterworth; Small 1972).
func TestClosedBoxCorner(t *testing.T) {
	j := bare()
	d := &j.Subs[0].Driver
	set := func(v float64) *float64 { return &v }
	*d = job.Driver{Name: "worked example", FsHz: set(25), Qes: set(0.44444444), Qms: set(4), VasL: set(120), SdCM2: set(480), ReOhm: set(3.2), XmaxMM: set(10)}
	// Small's relations: Vb for Qtc = 1/sqrt 2 is 56.4706 l, fc = 44.194 Hz
	// (recomputed, tolerance 1e-4).
	j.Subs[0].Box.NetL = 56.4706
	j.Subs[0].Channel.Amplifier.CableM = 0
	j.Subs[0].Channel.Amplifier.OutputOhm = 0
	r, found := NewSolver().Respond(j, Grid{FromHz: 44.1942, ToHz: 1990, Points: 2})
	if r == nil {
		t.Fatal(found)
	}
	free := r.Find("level/free")
	if drop := free[1] - free[0]; math.Abs(drop-3.0103) > 0.01 {
		t.Errorf("down %.4f dB at fc, want 3.0103", drop)
	}
	if math.Abs(r.Subs[0].Qtc-math.Sqrt2/2) > 1e-4 || math.Abs(r.Subs[0].SystemHz-44.1942) > 1e-3 {
		t.Errorf("Qtc %.5f fc %.4f, want 0.70711 and 44.1942", r.Subs[0].Qtc, r.Subs[0].SystemHz)
	}
}

// Where the cone's travel binds, the level left is that at which the travel is
// Xmax, and no limit is ever exceeded.
func TestLimitsHold(t *testing.T) {
	j := job.Demo()
	r, _ := NewSolver().Respond(j, DefaultGrid)
	level, top := r.Find("level/sub/wheel"), r.Find("max/sub/wheel")
	travel, code := r.Find("travel/sub/0"), r.Find("max_by/sub/wheel")
	bound := 0
	for k := range level {
		share := math.Pow(10, (top[k]-level[k])/20)
		left := travel[k] * share
		if left > r.Subs[0].XmaxMM*1.0001 {
			t.Fatalf("%.1f Hz: %.2f mm of travel is left, Xmax is %.2f", r.Hz[k], left, r.Subs[0].XmaxMM)
		}
		if Limit(code[k]) == ConeTravel {
			bound++
			if math.Abs(left-r.Subs[0].XmaxMM) > 1e-3 {
				t.Fatalf("%.1f Hz: the cone binds at %.3f mm", r.Hz[k], left)
			}
		}
	}
	if bound == 0 {
		t.Error("at 500 W the cone of the demo never binds")
	}
}

// Two drivers in parallel at the same voltage in twice the air do what two of
// the single system side by side do: 6.02 dB more in free air, half the load.
func TestTwoAlike(t *testing.T) {
	one := bare()
	one.Subs[0].Channel.Amplifier.CableM, one.Subs[0].Channel.Amplifier.OutputOhm = 0, 0
	two := one
	two.Subs = append([]job.Sub(nil), one.Subs...)
	two.Subs[0].Parallel = 2
	two.Subs[0].Box.NetL *= 2
	s := NewSolver()
	g := Grid{FromHz: 10, ToHz: 200, Points: 20}
	a, _ := s.Respond(one, g)
	b, _ := s.Respond(two, g)
	for k := range a.Hz {
		if d := b.Find("level/free")[k] - a.Find("level/free")[k]; math.Abs(d-20*math.Log10(2)) > 1e-6 {
			t.Fatalf("%.1f Hz: two play %.4f dB more than one in free air", a.Hz[k], d)
		}
		// In the car the second box and cone load the same cabin, so only
		// nearly half the load remains.
		if d := 2 * b.Find("load/sub/0")[k] / a.Find("load/sub/0")[k]; math.Abs(d-1) > 0.1 {
			t.Fatalf("%.1f Hz: load ratio %.3f", a.Hz[k], d)
		}
	}
}
