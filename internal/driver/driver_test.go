package driver

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"
)

// worked is the driver of the efficiency and measurement checks: fs 25 Hz,
// Qms 4, Qes 4/9, Vas 120 L, Sd 480 cm2, Re 3.2 ohm. Its other figures were
// computed outside this project (Python) from Small's definitions, in air of
// 1.2041 kg/m3 and 343.2 m/s.
func worked(t *testing.T) Driver {
	t.Helper()
	s := Stated{MeasuredIn: &plainAir, Values: map[Key]float64{
		KeyFs: 25, KeyQms: 4, KeyQes: 4.0 / 9, KeyVas: 120, KeySd: 480, KeyRe: 3.2,
	}}
	d, _, err := Derive(s, plainAir)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestWorkedDriver(t *testing.T) {
	d := worked(t)
	near(t, "Qts", d.Qts, 0.40, 1e-12)
	near(t, "Cms", d.Cms, 3.67233e-4, 2e-6)
	near(t, "Mms", d.Mms, 0.110362, 5e-6)
	near(t, "Bl", d.Bl, 11.17212, 1e-6)
	near(t, "Rms", d.Rms, 4.3339, 2e-5)
	near(t, "efficiency", d.Efficiency(plainAir), 0.00412004, 2e-6)
	near(t, "EBP", d.EBP(), 56.25, 1e-12)
	if got := d.Sensitivity(plainAir); math.Abs(got-88.309) > 5e-4 {
		t.Errorf("sensitivity %.4f dB, want 88.309", got)
	}
}

// Small 1972 gives the efficiency both by the motor and by fs, Vas and Qes
// (4 pi^2/c^3 times fs^3 Vas/Qes; 9.61396e-7 for c = 345 m/s): the two routes
// must meet. The level constant 10 lg(rho c/(2 pi p0^2)) is 112.16 dB for this air.
func TestEfficiencyTwoWays(t *testing.T) {
	near(t, "Small's constant", 4*math.Pi*math.Pi/math.Pow(345, 3), 9.61396e-7, 1e-6)
	r := rand.New(rand.NewPCG(9, 10))
	for n := 0; n < 200; n++ {
		var d Driver
		d.setValues(randomSet(r))
		c := plainAir.SpeedOfSound
		other := 4 * math.Pi * math.Pi / (c * c * c) * d.Fs * d.Fs * d.Fs * d.Vas / d.Qes
		near(t, "efficiency", d.Efficiency(plainAir), other, 1e-9)
		if got := d.Sensitivity(plainAir) - 10*math.Log10(other); math.Abs(got-112.160) > 1e-3 {
			t.Fatalf("level constant %.4f dB", got)
		}
		volts := d.SensitivityAt(2.83, plainAir) - d.Sensitivity(plainAir)
		if math.Abs(volts-10*math.Log10(2.83*2.83/d.Re)) > 1e-12 {
			t.Fatalf("2.83 V is %.4f dB over 1 W", volts)
		}
	}
}

// At resonance the impedance is Re (1 + Qms/Qes) and real; far off it tends to
// the blocked one (Small 1972).
func TestFreeAirImpedance(t *testing.T) {
	d := worked(t)
	z := d.Impedance(2 * math.Pi * d.Fs)
	near(t, "peak", real(z), 3.2*(1+4/(4.0/9)), 1e-12)
	if math.Abs(imag(z)) > 1e-9 {
		t.Errorf("reactance at resonance %g", imag(z))
	}
	d.Coil = Coil{K: 0.04, N: 0.65}
	w := 2 * math.Pi * 2000.0
	if e := cmplx.Abs(d.Impedance(w)/d.Blocked(w) - 1); e > 0.01 {
		t.Errorf("motional part left at 2 kHz: %g", e)
	}
}

// However many alike share a box, fs, the Q values and the efficiency of each
// watt behave as they must: Qs stay, the efficiency doubles per doubling (the
// same motor per mass, twice the area), the load goes by series over parallel.
func TestGroup(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for n := 0; n < 100; n++ {
		var d Driver
		d.setValues(randomSet(r))
		d.Coil = Coil{Le: 1e-3, L2: 2e-3, R2: 5}
		s, p := 1+r.IntN(3), 1+r.IntN(3)
		g := d.Group(s, p)
		again := g.values()
		known, ok := solve(&again, bit(iRe)|bit(iBl)|bit(iMms)|bit(iCms)|bit(iRms)|bit(iSd), plainAir.BulkModulus())
		if !ok || known != allSmall {
			t.Fatal("no solution")
		}
		for i, x := range g.values() {
			near(t, string(smallKeys[i]), x, again[i], 1e-12)
		}
		near(t, "fs", g.Fs, d.Fs, 0)
		near(t, "Vas", g.Vas, d.Vas*float64(s*p), 1e-12)
		near(t, "efficiency", g.Efficiency(plainAir), d.Efficiency(plainAir)*float64(s*p), 1e-12)
		for _, f := range []float64{12, d.Fs, 300} {
			got, want := g.Impedance(twoPi*f), d.Impedance(twoPi*f)*complex(float64(s)/float64(p), 0)
			if cmplx.Abs(got/want-1) > 1e-12 {
				t.Fatalf("load of %d x %d is %v, want %v", s, p, got, want)
			}
		}
	}
}

// Two dual 4 ohm: 1, 4, 4 and 16 ohm; two dual 2 ohm with coils in series and
// drivers in parallel: 2 ohm; three single 4 ohm in parallel: 1.333 ohm. These
// are Ohm's law, and the figures every wiring chart of the trade shows.
func TestWirings(t *testing.T) {
	loads := func(n, c int, z float64) (out []float64) {
		for _, w := range Wirings(n, c, z) {
			out = append(out, w.Ohm)
		}
		return out
	}
	for _, c := range []struct {
		n, c int
		z    float64
		want []float64
	}{
		{2, 2, 4, []float64{1, 4, 4, 16}},
		{2, 2, 2, []float64{0.5, 2, 2, 8}},
		{3, 1, 4, []float64{4.0 / 3, 12}},
		{1, 2, 4, []float64{2, 8}},
		{4, 1, 4, []float64{1, 4, 16}},
		{1, 4, 2, []float64{0.5, 2, 8}},
		{0, 2, 4, nil},
	} {
		got := loads(c.n, c.c, c.z)
		if len(got) != len(c.want) {
			t.Fatalf("%d drivers of %d coils: %v, want %v", c.n, c.c, got, c.want)
		}
		for i := range got {
			near(t, "load", got[i], c.want[i], 1e-12)
		}
	}
	if say := Wirings(2, 2, 2)[1].Say; say != "coils of each driver in parallel, drivers in series: 2 Ω" {
		t.Errorf("said %q", say)
	}
}

// The motor constant Bl^2/Re belongs to the copper and the magnet, not to the
// way its ends are joined (Small 1972 uses it so): coils in series or parallel
// have the same Q and efficiency.
func TestCoilsAs(t *testing.T) {
	d := worked(t)
	d.Coils, d.CoilOhm = 2, 2
	d.Coil = Coil{Le: 2e-3}
	s, p, perCoil, ok := d.StatedWiring()
	if s != 2 || p != 1 || perCoil || !ok {
		t.Fatalf("3.2 ohm of two 2 ohm coils read as %d x %d %v %v", s, p, perCoil, ok)
	}
	q := d.CoilsAs(1, 2, s, p)
	near(t, "Re", q.Re, 0.8, 1e-12)
	near(t, "Bl", q.Bl, d.Bl/2, 1e-12)
	near(t, "Le", q.Coil.Le, 0.5e-3, 1e-12)
	near(t, "Bl^2/Re", q.Bl*q.Bl/q.Re, d.Bl*d.Bl/d.Re, 1e-12)
	near(t, "efficiency", q.Efficiency(plainAir), d.Efficiency(plainAir), 1e-12)
	d.Re = 1.7
	if _, _, perCoil, ok := d.StatedWiring(); !perCoil || !ok {
		t.Error("Re of one coil alone was not noticed")
	}
}

func TestSag(t *testing.T) {
	d := worked(t)
	near(t, "sag", d.Sag(), d.Mms*9.80665*d.Cms, 1e-9)
}

// Whatever the numbers drawn, the result is a driver that obeys the
// definitions, within the half-widths, and the middle is the driver itself.
func TestPerturb(t *testing.T) {
	tol := Tolerances{Fs: 0.1, Q: 0.12, Vas: 0.2}
	r := rand.New(rand.NewPCG(13, 14))
	for n := 0; n < 200; n++ {
		var d Driver
		d.setValues(randomSet(r))
		same := d.Perturb(tol, []float64{0.5, 0.5, 0.5, 0.5})
		for i, x := range same.values() {
			near(t, "middle "+string(smallKeys[i]), x, d.values()[i], 1e-12)
		}
		u := []float64{r.Float64(), r.Float64(), r.Float64(), r.Float64()}
		p := d.Perturb(tol, u)
		again := p.values()
		solve(&again, bit(iRe)|bit(iFs)|bit(iQes)|bit(iQms)|bit(iVas)|bit(iSd), plainAir.BulkModulus())
		for i, x := range p.values() {
			near(t, string(smallKeys[i]), x, again[i], 1e-12)
		}
		near(t, "fs", p.Fs, d.Fs*(1+0.1*(2*u[0]-1)), 1e-12)
		near(t, "Vas", p.Vas, d.Vas*(1+0.2*(2*u[3]-1)), 1e-12)
		near(t, "Re", p.Re, d.Re, 0)
	}
}
