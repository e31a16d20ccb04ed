package driver

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Key names a parameter and the unit it is stated in. Keys are the field names
// of the job document, so a finding can be put at its field.
type Key string

// The keys of the small-signal parameters and of the rest of a data sheet.
const (
	KeyRe  Key = "re_ohm"
	KeyFs  Key = "fs_hz"
	KeyQes Key = "qes"
	KeyQms Key = "qms"
	KeyQts Key = "qts"
	KeyVas Key = "vas_l"
	KeySd  Key = "sd_cm2"
	KeyBl  Key = "bl_tm"
	KeyMms Key = "mms_g"
	KeyCms Key = "cms_mm_n"
	KeyRms Key = "rms_kg_s"

	KeyLe    Key = "le_mh"
	KeyL2    Key = "l2_mh"
	KeyR2    Key = "r2_ohm"
	KeySemiK Key = "semi_k"
	KeySemiN Key = "semi_n"

	KeyXmax    Key = "xmax_mm"
	KeyPower   Key = "power_w"
	KeySize    Key = "size_in"
	KeyDepth   Key = "depth_mm"
	KeyCutOut  Key = "cut_out_mm"
	KeyOutside Key = "outside_mm"
	KeyVolume  Key = "volume_l"
	KeyMass    Key = "mass_kg"
	KeyPrice   Key = "price"
	KeyCoils   Key = "coils"
	KeyCoilOhm Key = "coil_ohm"
)

// Quantity describes a Key: how it is written and what is believable.
type Quantity struct {
	Key   Key
	Label string  // as a data sheet writes it
	Name  string  // in words
	Unit  string  // the unit of the key
	SI    float64 // SI value of one unit
	// Low and High bound what car drivers have, 3 to 24 inch. A value
	// outside is doubted, and one a thousand times outside is refused.
	Low, High float64
}

// quantities in the order a form shows them. The bounds are wide readings of
// common practice, no source; they catch a wrong unit, not an odd driver.
var quantities = []Quantity{
	{KeyRe, "Re", "DC resistance", "Ω", 1, 0.2, 64},
	{KeyFs, "fs", "resonance", "Hz", 1, 8, 400},
	{KeyQes, "Qes", "electrical Q", "", 1, 0.08, 6},
	{KeyQms, "Qms", "mechanical Q", "", 1, 0.4, 50},
	{KeyQts, "Qts", "total Q", "", 1, 0.07, 5},
	{KeyVas, "Vas", "equivalent volume", "L", 1e-3, 0.3, 2000},
	{KeySd, "Sd", "cone area", "cm²", 1e-4, 15, 3000},
	{KeyBl, "Bl", "force factor", "T·m", 1, 0.8, 80},
	{KeyMms, "Mms", "moving mass", "g", 1e-3, 0.8, 2500},
	{KeyCms, "Cms", "compliance", "mm/N", 1e-3, 0.008, 6},
	{KeyRms, "Rms", "mechanical resistance", "kg/s", 1, 0.05, 80},
	{KeyLe, "Le", "coil inductance", "mH", 1e-3, 0.01, 30},
	{KeyL2, "L2", "second coil inductance", "mH", 1e-3, 0.01, 60},
	{KeyR2, "R2", "coil loss resistance", "Ω", 1, 0.05, 1000},
	{KeySemiK, "K", "coil semi-inductance", "Ω·sⁿ", 1, 1e-5, 10},
	{KeySemiN, "n", "coil exponent", "", 1, 0.2, 1},
	{KeyXmax, "Xmax", "linear travel one way", "mm", 1e-3, 0.5, 80},
	{KeyPower, "Power", "thermal rating", "W", 1, 5, 10000},
	{KeySize, "Size", "nominal size", "in", 1, 2, 34},
	{KeyDepth, "Depth", "mounting depth", "mm", 1e-3, 15, 700},
	{KeyCutOut, "Cut-out", "cut-out diameter", "mm", 1e-3, 40, 900},
	{KeyOutside, "Outside", "outside diameter", "mm", 1e-3, 45, 950},
	{KeyVolume, "Displacement", "air displaced by the driver", "L", 1e-3, 0.02, 60},
	{KeyMass, "Mass", "mass of the driver", "kg", 1, 0.1, 150},
	{KeyPrice, "Price", "price", "", 1, 0, 1e6},
	{KeyCoils, "Coils", "voice coils", "", 1, 1, 4},
	{KeyCoilOhm, "Coil", "nominal impedance of one coil", "Ω", 1, 0.3, 64},
}

var quantityByKey = func() map[Key]Quantity {
	m := make(map[Key]Quantity, len(quantities))
	for _, q := range quantities {
		m[q.Key] = q
	}
	return m
}()

// Quantities returns the description of every key, in the order of a form.
func Quantities() []Quantity { return append([]Quantity(nil), quantities...) }

// Describe returns the description of a key and whether it is known.
func Describe(k Key) (Quantity, bool) {
	q, ok := quantityByKey[k]
	return q, ok
}

func (k Key) label() string { return quantityByKey[k].Label }

// write gives a value in the key's unit with three to four figures, for
// sentences.
func (k Key) write(v float64) string {
	s := figures(v)
	if u := quantityByKey[k].Unit; u != "" {
		s += " " + u
	}
	return s
}

// figures writes v with three significant figures, four when it begins with 1.
func figures(v float64) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return strconv.FormatFloat(v, 'g', -1, 64)
	}
	digits := 3
	if lead := math.Abs(v) / math.Pow(10, math.Floor(math.Log10(math.Abs(v)))); lead < 2 {
		digits = 4
	}
	places := digits - 1 - int(math.Floor(math.Log10(math.Abs(v))))
	if places < 0 {
		places = 0
	}
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// labels joins the labels of keys as in "Qes, Qms and Re".
func labels(keys []Key, last string) string {
	words := make([]string, len(keys))
	for i, k := range keys {
		words[i] = k.label()
	}
	return join(words, last)
}

func join(words []string, last string) string {
	switch len(words) {
	case 0:
		return ""
	case 1:
		return words[0]
	}
	n := len(words) - 1
	return fmt.Sprintf("%s %s %s", strings.Join(words[:n], ", "), last, words[n])
}
