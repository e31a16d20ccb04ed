package columns

import (
	"math"
	"strings"
	"testing"
)

// The same three rows as a dozen programs and people would write them.
func TestDialects(t *testing.T) {
	want := [][]float64{{20, 25.5, 1000}, {6.15, 7.25, 12.5}}
	for name, text := range map[string]string{
		"spaces":             "20 6.15\n25.5 7.25\n1000 12.5\n",
		"aligned":            "   20.0     6.15\n   25.5     7.25\n 1000.0    12.50\n",
		"tabs":               "20\t6.15\n25.5\t7.25\n1000\t12.5",
		"tabs and a blank":   "20\t6.15\t\r\n25.5\t7.25\t\r\n1000\t12.5\t\r\n",
		"semicolon":          "20;6.15\n25.5;7.25\n1000;12.5\n",
		"semicolon comma":    "20;6,15\n25,5;7,25\n1000;12,5\n",
		"spaces comma":       "20 6,15\n25,5 7,25\n1000 12,5\n",
		"comma":              "20,6.15\n25.5,7.25\n1000,12.5\n",
		"comma and space":    "20, 6.15\n25.5, 7.25\n1000, 12.5\n",
		"quoted":             "\"20\",\"6.15\"\n\"25.5\",\"7.25\"\n\"1000\",\"12.5\"\n",
		"thousands point":    "20,0\t6,15\n25,5\t7,25\n1.000,0\t12,5\n",
		"thousands comma":    "20.0\t6.15\n25.5\t7.25\n1,000.0\t12.5\n",
		"exponents":          "2.0E+01 6.15e0\n2.55E+01 7.25e0\n1.0E+03 1.25E1\n",
		"exponents comma":    "2,0E+01;6,15\n2,55E+01;7,25\n1E3;1,25E+01\n",
		"comments":           "* made up\n# more\n20 6.15\n; aside\n25.5 7.25\n\n1000 12.5\n* end",
		"headings":           "Frequency [Hz]\tImpedance [ohm]\n20\t6.15\n25.5\t7.25\n1000\t12.5",
		"prose":              "This was measured on a bench, 2 drivers.\nfreq Z\n20 6.15\n25.5 7.25\n1000 12.5\nThanks.",
		"units":              "20 Hz 6.15 ohm\n25.5 Hz 7.25 ohm\n1 kHz 12.5 ohm\n",
		"units close":        "20Hz;6.15Ω\n25.5Hz;7.25Ω\n1kHz;12.5Ω\n",
		"old mac lines":      "20 6.15\r25.5 7.25\r1000 12.5\r",
		"byte-order mark":    "\ufeff20 6.15\n25.5 7.25\n1000 12.5\n",
		"wide characters":    utf16le("20;6,15\n25,5;7,25\n1000;12,5\n"),
		"trailing point":     "20. 6.15\n25.5 7.25\n1000. 12.5\n",
		"no-break spaces":    "20\u00a06.15\n25.5\u00a07.25\n1000\u00a012.5\n",
		"whole among commas": "20 6,15\n25,5 7,25\n1000 12,5\n",
	} {
		got, err := Read(text)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if len(got.Columns) != 2 || got.Rows() != 3 || got.NSkipped != 0 {
			t.Errorf("%s: %d columns, %d rows, %d skipped", name, len(got.Columns), got.Rows(), got.NSkipped)
			continue
		}
		for c := range want {
			for r := range want[c] {
				if math.Abs(got.Columns[c][r]-want[c][r]) > 1e-12*want[c][r] {
					t.Errorf("%s: column %d is %v", name, c, got.Columns[c])
					break
				}
			}
		}
	}
}

func utf16le(s string) string {
	var b strings.Builder
	b.WriteString("\xff\xfe")
	for _, r := range s {
		b.WriteByte(byte(r))
		b.WriteByte(byte(r >> 8))
	}
	return b.String()
}

func TestHeadingsAndLeftovers(t *testing.T) {
	got, err := Read("* bench 1\nFreq (Hz)  Z (ohm)  Phase (deg)\n20 6.1 30\n21 6.2\n22 6.3 28\n23 six 1\n")
	if err != nil {
		t.Fatal(err)
	}
	if i, ok := got.Find("phase"); !ok || i != 2 {
		t.Errorf("phase found at %d (%v)", i, got.Names)
	}
	if i, ok := got.Find("ohm", "imp"); !ok || i != 1 {
		t.Errorf("ohm found at %d (%v)", i, got.Names)
	}
	if _, ok := got.Find("level"); ok {
		t.Error("found a level that is not there")
	}
	if got.NSkipped != 2 || got.Skipped[0].Line != 4 || got.Skipped[1].Text != "23 six 1" {
		t.Errorf("skipped %+v", got.Skipped)
	}
	if len(got.Comments) != 2 || got.Comments[0] != "* bench 1" {
		t.Errorf("comments %q", got.Comments)
	}
}

func TestTwoReadingsAreSaid(t *testing.T) {
	// Three figures after every comma: 20.5 or 20500.
	got, err := Read("20,500 6,100\n21,500 6,200\n")
	if err != nil || got.Doubt == "" || got.Columns[0][0] != 20.5 {
		t.Errorf("%v %q %v", got.Columns, got.Doubt, err)
	}
	// A frequency that only runs one way with thousands separators.
	got, err = Read("900 6\n1,000 7\n1,100 8\n")
	if err != nil || got.Doubt != "" || got.Columns[0][1] != 1000 {
		t.Errorf("%v %q %v", got.Columns, got.Doubt, err)
	}
	// Commas for both: said.
	got, err = Read("20,5,6,1\n21,5,6,2\n")
	if err != nil || got.Doubt == "" {
		t.Errorf("%v %q %v", got.Columns, got.Doubt, err)
	}
}

func TestAscending(t *testing.T) {
	got, err := Read("30 1\n20 2\n30 3\n10 4\n")
	if err != nil {
		t.Fatal(err)
	}
	up := got.Ascending(0)
	if up.Rows() != 3 || up.Columns[0][2] != 30 || up.Columns[1][2] != 2 || up.Columns[1][0] != 4 {
		t.Errorf("%v", up.Columns)
	}
	if got.Rows() != 4 || got.Columns[0][0] != 30 {
		t.Error("the table itself changed")
	}
}

func TestRefusals(t *testing.T) {
	for name, text := range map[string]string{
		"empty":       "",
		"prose":       "no numbers here at all",
		"one column":  "1\n2\n3\n",
		"not figures": "nan inf\n0x10 0x20\n1_0 2_0\n",
		"too large":   "1e999 5\n",
		"too wide":    strings.Repeat("1,", 200) + "\n",
		"too long":    strings.Repeat("x", MaxBytes+1),
		"too many":    strings.Repeat("1 2\n", MaxRows+1),
		"binary":      "\x00\x01\x02\xff\xfe",
	} {
		if got, err := Read(text); err == nil {
			t.Errorf("%s: read as %v rows", name, got.Rows())
		} else if len(err.Error()) < 20 {
			t.Errorf("%s: %q is no sentence", name, err)
		}
	}
}

func TestParseNumber(t *testing.T) {
	for _, c := range []struct {
		s     string
		comma bool
		want  float64
		ok    bool
	}{
		{"1,234.5", false, 1234.5, true}, {"1.234,5", true, 1234.5, true}, {"1,23.4", false, 0, false},
		{"−3.5", false, -3.5, true}, {"+.5", false, 0.5, true}, {"-", false, 0, false}, {".", false, 0, false},
		{"1e", false, 0, false}, {"1e+-2", false, 0, false}, {"1e5", false, 1e5, true}, {"--1", false, 0, false},
		{"1,5", true, 1.5, true}, {"1.5", true, 0, false}, {"12 khz", false, 12000, true}, {"3 apples", false, 0, false},
		{"1234,567.8", false, 0, false}, {"NaN", false, 0, false}, {"Inf", false, 0, false}, {"0x1F", false, 0, false},
	} {
		got, ok := ParseNumber(c.s, c.comma)
		if ok != c.ok || ok && got != c.want {
			t.Errorf("%q (comma %v) = %g %v", c.s, c.comma, got, ok)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{"20 6.1\n21 6.2", "a;b\n1,5;2,5", "1,2,3,4", "\xff\xfe1\x00", "* c\n1\t2\t", "1.000,5 2", "20 Hz 3 ohm", "\""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, err := Read(text)
		if err != nil {
			return
		}
		if got.Rows() == 0 || len(got.Columns) < 2 || len(got.Names) != len(got.Columns) {
			t.Fatalf("%d rows, %d columns", got.Rows(), len(got.Columns))
		}
		for _, c := range got.Columns {
			if len(c) != got.Rows() {
				t.Fatal("columns differ in length")
			}
			for _, v := range c {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("value %g", v)
				}
			}
		}
		got.Ascending(0)
	})
}
