package tune

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A response as different programs and people write it must read as the same
// one: testdata/tune holds texts of our own writing.
func TestReadMeasurementFiles(t *testing.T) {
	want := func(hz float64) float64 { return 90 + 10*math.Sin(hz/20) }
	files, err := filepath.Glob("../../testdata/tune/same-*.txt")
	if err != nil || len(files) < 6 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		m, err := ReadMeasurement(string(text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if len(m.Hz) != 40 || m.Hz[0] != 10 || m.Hz[39] != 205 {
			t.Errorf("%s: %d readings from %v", name, len(m.Hz), m.Hz)
			continue
		}
		for i, hz := range m.Hz {
			if hz != 10+5*float64(i) || math.Abs(m.LevelDB[i]-want(hz)) > 0.0051 {
				t.Errorf("%s: %g dB at %g Hz, want %.2f", name, m.LevelDB[i], hz, want(hz))
				break
			}
			if m.PhaseDeg != nil {
				if d := math.Remainder(m.PhaseDeg[i]+3*hz, 360); math.Abs(d) > 0.051 {
					t.Errorf("%s: phase %g at %g Hz, want %g", name, m.PhaseDeg[i], hz, -3*hz)
					break
				}
			}
		}
		if phase := strings.Contains(name, "phase"); phase != (m.PhaseDeg != nil) {
			t.Errorf("%s: phase read: %v", name, m.PhaseDeg != nil)
		}
	}
}

// table writes rows for a test.
func table(rows ...[2]float64) string {
	var b strings.Builder
	for _, r := range rows {
		fmt.Fprintf(&b, "%g %g\n", r[0], r[1])
	}
	return b.String()
}

// ramp is n good rows from 10 Hz.
func ramp(n int) [][2]float64 {
	out := make([][2]float64, n)
	for i := range out {
		out[i] = [2]float64{10 + 7*float64(i), 80 + float64(i%5)}
	}
	return out
}

func TestReadMeasurementSays(t *testing.T) {
	good := table(ramp(20)...)
	for _, c := range []struct {
		name, text, said string
	}{
		{"unusable rows", good + "-5 80\n0 80\n", "2 lines were left out because the frequency"},
		{"unusable level", good + "40 999\n", "1 line was left out because the level"},
		{"duplicates", good + "10 90\n17 90\n", "2 readings have the same frequency as another"},
		{"falling", good + "12 80\n", "sorted"},
		{"kilohertz", "kHz\tdB\n" + strings.ReplaceAll(strings.ReplaceAll(kilo(20), " ", "\t"), "\r", ""), "in kHz"},
		{"smoothing", "* 1/6 octave smoothing\n" + good, "smoothed to 1/6 octave"},
		{"smoothing, other words", "* Smoothing: 1/12 octave\n" + good, "smoothed to 1/12 octave"},
		{"bands", table([2]float64{20, 90}, [2]float64{25, 91}, [2]float64{31.5, 93}, [2]float64{40, 92}, [2]float64{50, 90}, [2]float64{63, 88},
			[2]float64{80, 85}, [2]float64{100, 86}, [2]float64{125, 87}, [2]float64{160, 86}, [2]float64{200, 85}, [2]float64{16, 84}), "third-octave bands"},
		{"more columns", "Hz dB coh delay\n" + strings.ReplaceAll(good, "\n", " 0.9 3\n"), "2 columns are not needed"},
		{"columns the other way", swapped(20), "taken so"},
		{"words between", good + "75 loud\n" + good, "Line 21"},
	} {
		m, err := ReadMeasurement(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if all := strings.Join(m.Said, " "); !strings.Contains(strings.ToLower(all), strings.ToLower(c.said)) {
			t.Errorf("%s: said %q, want %q", c.name, all, c.said)
		}
		if m.Hz[0] < 9 || m.Hz[0] > 17 {
			t.Errorf("%s: begins at %g Hz", c.name, m.Hz[0])
		}
	}
	m, err := ReadMeasurement(good)
	if err != nil || len(m.Said) != 0 || m.SmoothedOctave != 0 {
		t.Errorf("a clean text: %v, %v", m.Said, err)
	}
}

func kilo(n int) string {
	var b strings.Builder
	for _, r := range ramp(n) {
		fmt.Fprintf(&b, "%.4f %g\n", r[0]/1000, r[1])
	}
	return b.String()
}

func swapped(n int) string {
	var b strings.Builder
	for _, r := range ramp(n) {
		fmt.Fprintf(&b, "%g %g\n", r[1], r[0])
	}
	return b.String()
}

func TestReadMeasurementRefuses(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"nothing", "", "no rows"},
		{"prose", "The bass is nice.\n", "no rows"},
		{"few rows", table(ramp(5)...), "at least 12"},
		{"too high", strings.ReplaceAll(table(ramp(30)...), " ", "000 "), "at least 12"},
		{"level never changes", flat(30), "never changes"},
		{"no usable row", "-1 -90\n-2 -91\n", "no usable readings"},
	} {
		_, err := ReadMeasurement(c.text)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
}

func flat(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "%d 80\n", 10+i)
	}
	return b.String()
}

// The mean of 170 and -170 degrees is 180, not 0.
func TestPhaseOfEqualFrequencies(t *testing.T) {
	text := "10 80 170\n10 82 -170\n"
	for _, r := range ramp(20)[1:] {
		text += fmt.Sprintf("%g %g -20\n", r[0], r[1])
	}
	m, err := ReadMeasurement(text)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(math.Abs(m.PhaseDeg[0])-180) > 1e-9 || m.LevelDB[0] != 81 {
		t.Errorf("%g degrees, %g dB", m.PhaseDeg[0], m.LevelDB[0])
	}
}

// FuzzReadMeasurement: whatever the text, no panic; what is read is finite,
// rising and long enough.
func FuzzReadMeasurement(f *testing.F) {
	files, err := filepath.Glob("../../testdata/tune/*.txt")
	if err != nil {
		f.Fatal(err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Add("20,5;90,1\n21,5;91\n")
	f.Add("\xff\xfe2\x000\x00")
	f.Add("khz\tdb\n0.02\t90\n1e308 1e308 1e308\n")
	f.Add("* 1/0 oct\n" + table(ramp(14)...))
	f.Fuzz(func(t *testing.T, text string) {
		m, err := ReadMeasurement(text)
		if err != nil {
			if err.Error() == "" {
				t.Error("an error without words")
			}
			return
		}
		if len(m.Hz) < fewestReadings || len(m.LevelDB) != len(m.Hz) || m.PhaseDeg != nil && len(m.PhaseDeg) != len(m.Hz) {
			t.Fatalf("%d, %d, %d readings", len(m.Hz), len(m.LevelDB), len(m.PhaseDeg))
		}
		for i := range m.Hz {
			if i > 0 && !(m.Hz[i] > m.Hz[i-1]) || !(m.Hz[i] >= lowestHz) || math.IsInf(m.Hz[i], 0) || !(math.Abs(m.LevelDB[i]) <= 250) {
				t.Fatalf("reading %d: %g Hz, %g dB", i, m.Hz[i], m.LevelDB[i])
			}
			if m.PhaseDeg != nil && !(math.Abs(m.PhaseDeg[i]) <= 180) {
				t.Fatalf("phase %g", m.PhaseDeg[i])
			}
		}
		r := prepare(m, learnFromHz, learnToHz)
		if !r.grid.Valid() || len(r.hz) == 0 || len(r.hz) != len(r.db) {
			t.Fatalf("grid %+v of %d readings", r.grid, len(r.hz))
		}
		for i, v := range r.atReadings(r.grid.Hz(), make([]float64, r.grid.Points)) {
			if v != 0 || math.IsNaN(r.db[i]) || math.IsNaN(r.weight[i]) {
				t.Fatalf("reading %d: %g", i, v)
			}
		}
	})
}
