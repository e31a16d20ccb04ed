package driver

import (
	"errors"
	"math"
	"math/bits"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"

	"bootfloor/internal/air"
)

// plainAir is the air in which the worked figures below were computed.
var plainAir = air.Properties{Density: 1.2041, SpeedOfSound: 343.2}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tol*math.Abs(want) {
		t.Errorf("%s = %.9g, want %.9g (within %g of it)", what, got, want, tol)
	}
}

func statedOf(v values, m mask) Stated {
	s := Stated{Values: map[Key]float64{}, MeasuredIn: &plainAir}
	for i, k := range smallKeys {
		if m.has(i) {
			s.Values[k] = v[i] / quantityByKey[k].SI
		}
	}
	return s
}

// randomSet makes a consistent set from six independent values, by the
// definitions of Small (JAES 20, 1972) written out one after the other.
func randomSet(r *rand.Rand) values {
	between := func(lo, hi float64) float64 { return lo * math.Pow(hi/lo, r.Float64()) }
	re, fs, qes, qms := between(1, 8), between(18, 80), between(0.2, 1.5), between(2, 15)
	sd, mms := between(0.008, 0.15), between(0.01, 0.5)
	w := 2 * math.Pi * fs
	cms := 1 / (w * w * mms)
	return values{
		iRe: re, iFs: fs, iQes: qes, iQms: qms, iQts: 1 / (1/qes + 1/qms), iSd: sd, iMms: mms,
		iCms: cms, iRms: w * mms / qms, iBl: math.Sqrt(w * mms * re / qes),
		iVas: plainAir.Density * plainAir.SpeedOfSound * plainAir.SpeedOfSound * sd * sd * cms,
	}
}

// The rank of the logarithmic gradients with respect to six free parameters
// decides independently whether a subset suffices; gonum's singular values
// give it. All 2048 subsets are tried.
func TestEverySubset(t *testing.T) {
	const a = 0.37                  // share of Qes in d ln Qts, any generic value
	gradient := [nSmall][6]float64{ // columns Re, Fs, Qes, Qms, Sd, Mms
		iRe: {1}, iFs: {0, 1}, iQes: {0, 0, 1}, iQms: {0, 0, 0, 1}, iQts: {0, 0, a, 1 - a},
		iSd: {0, 0, 0, 0, 1}, iMms: {0, 0, 0, 0, 0, 1}, iCms: {0, -2, 0, 0, 0, -1},
		iRms: {0, 1, 0, -1, 0, 1}, iBl: {0.5, 0.5, -0.5, 0, 0, 0.5}, iVas: {0, -2, 0, 0, 2, -1},
	}
	r := rand.New(rand.NewPCG(1, 2))
	enough := 0
	for m := mask(0); m <= allSmall; m++ {
		rank := 0
		if n := bits.OnesCount16(uint16(m)); n > 0 {
			dense := mat.NewDense(n, 6, nil)
			row := 0
			for i := range smallKeys {
				if m.has(i) {
					dense.SetRow(row, gradient[i][:])
					row++
				}
			}
			var svd mat.SVD
			svd.Factorize(dense, mat.SVDNone)
			rank = svd.Rank(1e-9)
		}
		v := randomSet(r)
		d, findings, err := Derive(statedOf(v, m), plainAir)
		if (err == nil) != (rank == 6) {
			t.Fatalf("%v: rank %d, but Derive said %v", keysOf(m), rank, err)
		}
		if err != nil {
			var e *Error
			if !errors.As(err, &e) || !strings.Contains(e.Say, "add ") {
				t.Fatalf("%v: %q does not say what to add", keysOf(m), err)
			}
			continue
		}
		enough++
		for i, x := range d.values() {
			if math.Abs(x/v[i]-1) > 1e-9 {
				t.Fatalf("from %v: %s = %g, want %g", keysOf(m), smallKeys[i], x, v[i])
			}
		}
		for _, f := range findings {
			if f.Level == LevelWarning && f.Expected != 0 {
				t.Fatalf("from %v: consistent values called contrary: %s", keysOf(m), f.Say)
			}
		}
		if got := bits.OnesCount16(uint16(m)) + len(d.Derived); got != nSmall {
			t.Fatalf("from %v: %d derived", keysOf(m), len(d.Derived))
		}
	}
	if enough < 100 {
		t.Errorf("only %d sufficient subsets were seen", enough)
	}
}

func TestEverySentenceIsEnough(t *testing.T) {
	// Whatever the sentence asks for, entering it makes the set complete.
	r := rand.New(rand.NewPCG(3, 4))
	label := map[string]int{}
	for i, k := range smallKeys {
		label[k.label()] = i
	}
	for m := mask(0); m <= allSmall; m++ {
		if closure(m) == allSmall {
			continue
		}
		_, _, err := Derive(statedOf(randomSet(r), m), plainAir)
		_, ask, _ := strings.Cut(err.Error(), "add ")
		ask, _, _ = strings.Cut(ask, ".")
		all, choice, _ := strings.Cut(ask, "one of ")
		needed, choices := m, mask(0)
		for _, w := range strings.FieldsFunc(all, func(r rune) bool { return r == ' ' || r == ',' }) {
			if i, ok := label[w]; ok {
				needed |= bit(i)
			}
		}
		for _, w := range strings.FieldsFunc(choice, func(r rune) bool { return r == ' ' || r == ',' }) {
			if i, ok := label[w]; ok {
				choices |= bit(i)
			}
		}
		if choices == 0 && closure(needed) != allSmall {
			t.Fatalf("%v: %q is not enough", keysOf(m), err)
		}
		for i := range smallKeys {
			if choices.has(i) && closure(needed|bit(i)) != allSmall {
				t.Fatalf("%v: %q, but %s is not enough", keysOf(m), err, smallKeys[i])
			}
		}
	}
}

func find(t *testing.T, findings []Finding, k Key) Finding {
	t.Helper()
	for _, f := range findings {
		if f.Key == k && f.Expected != 0 {
			return f
		}
	}
	t.Fatalf("no disagreement at %s in %+v", k, findings)
	return Finding{}
}

func TestDisagreementIsNamed(t *testing.T) {
	// 1/(1/0.5 + 1/3.67) = 0.440, so 0.52 is 18 % too much.
	s := Stated{Values: map[Key]float64{KeyRe: 3.4, KeyFs: 28, KeyQes: 0.5, KeyQms: 3.67, KeyQts: 0.52, KeySd: 480, KeyVas: 80}}
	d, findings, err := Derive(s, air.MustStandard())
	if err != nil {
		t.Fatal(err)
	}
	f := find(t, findings, KeyQts)
	if !strings.HasPrefix(f.Say, "Qts from Qes and Qms is 0.44, 0.52 was entered (18 % more)") {
		t.Errorf("said %q", f.Say)
	}
	near(t, "share", f.Share, 0.52*(1/0.5+1/3.67)-1, 1e-12)
	if f.Odd || !strings.Contains(f.Say, "One of Qes or Qts must be wrong") {
		t.Errorf("a larger Qes or a smaller Qts would both do (no Qms would: Qts is above Qes): %q", f.Say)
	}
	near(t, "Qts used", d.Qts, 0.44, 1e-3)

	// The reader trusts Qts and Qms: then Qes gives way, and is named.
	s.Trust = []Key{KeyQts, KeyQms}
	d, findings, err = Derive(s, air.MustStandard())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "trusted Qts", d.Qts, 0.52, 1e-12)
	near(t, "Qes that follows", d.Qes, 1/(1/0.52-1/3.67), 1e-12)
	find(t, findings, KeyQes)
}

// A complete sheet with one wrong figure. Where the value takes part in two
// relations it is singled out, and the driver is that of the other ten. Re with
// Bl, and Vas with Sd, hang on one relation each: both are named, neither blamed.
func TestOddOneOut(t *testing.T) {
	pairs := map[Key]string{
		KeyRe: "One of Re or Bl", KeyBl: "One of Re or Bl",
		KeyVas: "One of Vas or Sd", KeySd: "One of Vas or Sd",
	}
	r := rand.New(rand.NewPCG(5, 6))
	for n := 0; n < 200; n++ {
		v := randomSet(r)
		// Comparable dampings: else Qms hardly shows in Qts.
		v[iQms] = v[iQes] * (1 + 2*r.Float64())
		v[iQts] = v[iQes] * v[iQms] / (v[iQes] + v[iQms])
		v[iRms] = 2 * math.Pi * v[iFs] * v[iMms] / v[iQms]
		for _, k := range smallKeys {
			s := statedOf(v, allSmall)
			s.Values[k] *= 1.6
			d, findings, err := Derive(s, plainAir)
			if err != nil {
				t.Fatalf("%s wrong: %v", k, err)
			}
			var clashes []Finding
			for _, f := range findings {
				if f.Expected != 0 {
					clashes = append(clashes, f)
				}
			}
			if len(clashes) != 1 {
				t.Fatalf("%s wrong: %d disagreements: %+v", k, len(clashes), clashes)
			}
			if pair, ok := pairs[k]; ok {
				if clashes[0].Odd || !strings.Contains(clashes[0].Say, pair) {
					t.Fatalf("%s wrong: %s", k, clashes[0].Say)
				}
				continue
			}
			if clashes[0].Key != k || !clashes[0].Odd {
				t.Fatalf("%s wrong: %s", k, clashes[0].Say)
			}
			for i, x := range d.values() {
				if math.Abs(x/v[i]-1) > 1e-9 {
					t.Fatalf("%s wrong: %s came out %g, not %g", k, smallKeys[i], x, v[i])
				}
			}
		}
	}
}

func TestRoundedSheetIsNotAccused(t *testing.T) {
	// A sheet printed to two figures, or to whole units, agrees within its own
	// rounding.
	r := rand.New(rand.NewPCG(7, 8))
	for n := 0; n < 300; n++ {
		s := statedOf(randomSet(r), allSmall)
		for k, x := range s.Values {
			places := max(0, 1-int(math.Floor(math.Log10(x))))
			s.Values[k], _ = strconv.ParseFloat(strconv.FormatFloat(x, 'f', places, 64), 64)
		}
		_, findings, err := Derive(s, plainAir)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range findings {
			if f.Expected != 0 {
				t.Errorf("accused a rounded figure: %s", f.Say)
			}
		}
	}
}

func TestContraryQIsRefused(t *testing.T) {
	s := Stated{Values: map[Key]float64{KeyRe: 3.4, KeyFs: 28, KeyQes: 0.4, KeyQts: 0.5, KeySd: 480, KeyVas: 80}}
	_, findings, err := Derive(s, air.MustStandard())
	if err == nil || !strings.Contains(err.Error(), "Qts is 0.5 but Qes is 0.4") {
		t.Errorf("said %v", err)
	}
	if len(findings) != 1 || findings[0].Key != KeyQts || findings[0].Level != LevelError {
		t.Errorf("findings %+v", findings)
	}
}

func TestWrongUnitIsDoubtedOrRefused(t *testing.T) {
	base := func() Stated {
		return Stated{Values: map[Key]float64{KeyRe: 3.4, KeyFs: 28, KeyQes: 0.5, KeyQms: 5, KeySd: 480, KeyVas: 80}}
	}
	for k, v := range map[Key]float64{KeySd: 0.048, KeyVas: 0.08, KeyFs: 2800, KeyQes: 50, KeyRe: 0.034} {
		s := base()
		s.Values[k] = v
		_, findings, _ := Derive(s, air.MustStandard())
		told := false
		for _, f := range findings {
			told = told || f.Key == k && f.Level != LevelNote
		}
		if !told {
			t.Errorf("%s of %g went by unsaid", k, v)
		}
	}
	for _, v := range []float64{0, -1, math.NaN(), math.Inf(1), 1e300, 1e-300} {
		s := base()
		s.Values[KeyFs] = v
		if _, _, err := Derive(s, air.MustStandard()); err == nil {
			t.Errorf("fs of %g was accepted", v)
		}
	}
}

// Measured in warm thin air, used in cold dense air: the compliance stays, the
// equivalent volume goes with rho c^2.
func TestVasGoesWithTheAir(t *testing.T) {
	hill, err := air.New(air.State{TemperatureC: 35, HumidityPct: 20, PressurePa: 80000})
	if err != nil {
		t.Fatal(err)
	}
	std := air.MustStandard()
	s := Stated{Values: map[Key]float64{KeyRe: 3.4, KeyFs: 28, KeyQes: 0.5, KeyQms: 5, KeySd: 480, KeyVas: 80}, MeasuredIn: &hill}
	d, _, err := Derive(s, std)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "Vas in standard air", d.Vas, 0.08*std.BulkModulus()/hill.BulkModulus(), 1e-12)
	near(t, "Vas back in its own air", d.VasIn(hill), 0.08, 1e-12)
	again, _, err := Derive(d.State(), std)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "Cms after a round trip", again.Cms, d.Cms, 1e-12)
}

func FuzzDerive(f *testing.F) {
	f.Add(uint16(0x7ff), 3.4, 28.0, 0.5, 5.0, 0.45, 80.0, 480.0, 12.0, 120.0, 0.27, 3.5)
	f.Add(uint16(0x3f), 1e-300, 1e300, 0.0, -1.0, 0.45, 80.0, 480.0, 12.0, 120.0, 0.27, 3.5)
	f.Fuzz(func(t *testing.T, m uint16, re, fs, qes, qms, qts, vas, sd, bl, mms, cms, rms float64) {
		s := Stated{Values: map[Key]float64{}}
		for i, x := range []float64{re, fs, qes, qms, qts, vas, sd, bl, mms, cms, rms} {
			if m&(1<<i) != 0 {
				s.Values[smallKeys[i]] = x
			}
		}
		d, findings, err := Derive(s, air.MustStandard())
		for _, f := range findings {
			if f.Say == "" || math.IsNaN(f.Share) || math.IsInf(f.Share, 0) {
				t.Errorf("finding %+v", f)
			}
		}
		if err != nil {
			return
		}
		for i, x := range d.values() {
			if !(x > 0) || math.IsInf(x, 0) {
				t.Errorf("%s = %g from %v", smallKeys[i], x, s.Values)
			}
		}
	})
}
