package driver

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"bootfloor/internal/air"
)

// spelling is one way to write a value: names, and units with what one of them
// is in the unit of the key.
type spelling struct {
	key   Key
	names []string
	units map[string]float64
}

var spellings = []spelling{
	{KeyFs, []string{"Fs", "fs", "Resonance frequency", "Free air resonance (Fs)", "F0", "f_s", "Resonanzfrequenz fs"}, map[string]float64{"Hz": 1, "hz": 1}},
	{KeyRe, []string{"Re", "DC resistance", "DCR (Re)", "R_e", "Gleichstromwiderstand"}, map[string]float64{"Ω": 1, "ohm": 1, "Ohms": 1}},
	{KeyQes, []string{"Qes", "Electrical Q", "Q_es", "Electrical Q factor (Qes)"}, map[string]float64{"": 1}},
	{KeyQms, []string{"Qms", "Mechanical Q", "Q_ms", "Mechanical Q factor, Qms"}, map[string]float64{"": 1}},
	{KeyQts, []string{"Qts", "Total Q", "Q_ts", "Total Q factor (Qts)", "QTS"}, map[string]float64{"": 1}},
	{KeyVas, []string{"Vas", "Equivalent volume", "VAS", "V_as", "Equivalent volume Vas"}, map[string]float64{"L": 1, "litres": 1, "ft³": 28.316846592, "cu. ft.": 28.316846592, "dm3": 1, "m³": 1000}},
	{KeySd, []string{"Sd", "Effective piston area", "S_d", "Cone area (Sd)", "Membranfläche Sd"}, map[string]float64{"cm²": 1, "cm2": 1, "sq in": 6.4516, "in²": 6.4516, "m²": 1e4, "sq. cm": 1}},
	{KeyBl, []string{"BL", "Bl", "Force factor", "B·l", "BxL", "Force factor (BL)"}, map[string]float64{"Tm": 1, "T·m": 1, "N/A": 1, "T.m": 1}},
	{KeyMms, []string{"Mms", "Moving mass", "M_ms", "Moving mass (Mms)"}, map[string]float64{"g": 1, "grams": 1, "kg": 1000}},
	{KeyCms, []string{"Cms", "Compliance", "Suspension compliance (Cms)"}, map[string]float64{"mm/N": 1, "µm/N": 1e-3, "m/N": 1e3}},
	{KeyLe, []string{"Le", "Voice coil inductance", "Inductance (Le)"}, map[string]float64{"mH": 1, "uH": 1e-3}},
	{KeyXmax, []string{"Xmax", "Linear excursion", "X_max (one way)"}, map[string]float64{"mm": 1, "in": 25.4, "cm": 10}},
}

// A thousand sheets put together at random: whatever is taken as sure is the
// value that was printed, and most values are found.
func TestRandomSheets(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	pick := func(list ...string) string { return list[r.IntN(len(list))] }
	taken, printed := 0, 0
	for n := 0; n < 1000; n++ {
		d := subwoofer(r, Coil{Le: 1e-3 * (0.4 + 3*r.Float64())})
		d.Xmax = 0.001 * float64(5+r.IntN(20))
		truth := d.In(air.MustStandard()).State().Values
		comma := r.IntN(3) == 0
		between := pick(": ", " = ", "\t", "   ", " ", " ....... ", " | ", ":\t")
		unitFirst := r.IntN(5) == 0
		want := map[Key]float64{}
		var lines []string
		for _, i := range r.Perm(len(spellings))[:7+r.IntN(5)] {
			s := spellings[i]
			unit := sortedUnit(s.units, r)
			one := s.units[unit]
			value := truth[s.key] / one
			places := max(0, 3-int(math.Floor(math.Log10(value))))
			figure := fmt.Sprintf("%.*f", places, value)
			want[s.key] = parsed(t, figure) * one
			if comma {
				figure = strings.ReplaceAll(figure, ".", ",")
			}
			name := s.names[r.IntN(len(s.names))]
			switch {
			case unit == "":
				lines = append(lines, name+between+figure)
			case unitFirst:
				lines = append(lines, name+" ("+unit+")"+between+figure)
			default:
				lines = append(lines, name+between+figure+pick(" ", "", " ")+unit)
			}
		}
		text := strings.Join(lines, pick("\n", "\n", "\r\n", "\n\n", " ; ", "      "))
		got := ReadSheet(text)
		for _, m := range got.Models {
			for _, reading := range m.Readings {
				if !reading.Sure {
					continue
				}
				if w, ok := want[reading.Key]; !ok || math.Abs(reading.Value/w-1) > 1e-6 {
					t.Fatalf("WRONG VALUE TAKEN: %s = %g, printed was %g, in\n%s\n%s", reading.Key, reading.Value, w, text, describe("", got))
				}
				taken++
			}
		}
		printed += len(want)
	}
	if share := float64(taken) / float64(printed); share < 0.9 {
		t.Errorf("only %.1f %% of %d values were taken", 100*share, printed)
	} else {
		t.Logf("%.1f %% of %d values taken, none wrong", 100*share, printed)
	}
}

func sortedUnit(units map[string]float64, r *rand.Rand) string {
	names := slices.Sorted(maps.Keys(units)) // so that the seed decides
	return names[r.IntN(len(names))]
}

func parsed(t *testing.T, s string) float64 {
	t.Helper()
	var v float64
	if _, err := fmt.Sscan(s, &v); err != nil {
		t.Fatal(err)
	}
	return v
}
