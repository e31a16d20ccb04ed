package driver

import "strings"

// dimension groups units that convert into one another.
type dimension string

const (
	dimNone       dimension = "" // a plain figure
	dimFrequency  dimension = "frequency"
	dimResistance dimension = "resistance"
	dimVolume     dimension = "volume"
	dimArea       dimension = "area"
	dimForce      dimension = "force factor"
	dimMass       dimension = "mass"
	dimCompliance dimension = "compliance"
	dimStiffness  dimension = "stiffness"
	dimMechanical dimension = "mechanical resistance"
	dimInductance dimension = "inductance"
	dimLength     dimension = "length"
	dimPower      dimension = "power"
	dimLevel      dimension = "level"
	dimOther      dimension = "something else" // known, but no use here
)

// sheetUnit is a unit as sheets write it, folded: lower case, without spaces,
// points, dots and carets.
type sheetUnit struct {
	folded string
	dim    dimension
	factor float64 // to the base unit of the dimension below
}

// Base units: Hz, ohm, L, cm2, T m, g, mm/N, N/mm, kg/s, mH, mm, W, dB. The
// imperial ones are exact by the international yard and pound of 1959.
var sheetUnits = func() []sheetUnit {
	var out []sheetUnit
	add := func(dim dimension, factor float64, names ...string) {
		for _, n := range names {
			out = append(out, sheetUnit{n, dim, factor})
		}
	}
	add(dimFrequency, 1, "hz", "hertz", "cps")
	add(dimFrequency, 1e3, "khz")
	add(dimResistance, 1, "ω", "ohm", "ohms")
	add(dimResistance, 1e-3, "mω", "mohm", "mohms")
	add(dimVolume, 1, "l", "lt", "ltr", "ltrs", "lit", "litre", "litres", "liter", "liters", "litri", "litros", "dm3")
	add(dimVolume, 1e3, "m3", "cubicmetres", "cubicmeters")
	add(dimVolume, 1e-3, "cm3", "cc", "ml")
	add(dimVolume, 28.316846592, "ft3", "cuft", "cuftt", "cft", "cf", "cubicfeet", "cubicfoot", "cufeet", "cubicft")
	add(dimVolume, 0.016387064, "in3", "cuin", "cubicinch", "cubicinches")
	add(dimArea, 1, "cm2", "sqcm", "cmsq", "squarecm", "sqcms", "cms2", "squarecentimetres", "squarecentimeters", "qcm")
	add(dimArea, 1e4, "m2", "sqm", "squaremetres", "squaremeters", "sqmetres", "sqmeters", "squaremetre", "squaremeter")
	add(dimArea, 1e-2, "mm2", "sqmm")
	add(dimArea, 1e2, "dm2", "sqdm")
	add(dimArea, 6.4516, "in2", "sqin", "squareinch", "squareinches", "inchsq", "insq", "sqinch", "sqinches", "inch2", "inches2")
	add(dimForce, 1, "tm", "n/a", "txm", "teslam", "teslametre", "teslameter", "teslametres", "teslameters", "newton/amp", "newton/ampere", "wb/m", "t-m")
	add(dimMass, 1, "g", "gr", "gm", "gms", "gram", "grams", "gramme", "grammes", "gramm")
	add(dimMass, 1e3, "kg", "kgs", "kilogram", "kilograms")
	add(dimMass, 1e-3, "mg")
	add(dimMass, 28.349523125, "oz", "ounce", "ounces")
	add(dimMass, 453.59237, "lb", "lbs", "pound", "pounds")
	add(dimCompliance, 1, "mm/n", "mm/newton", "mmn-1")
	add(dimCompliance, 1e-3, "um/n", "um/newton", "micron/n", "microns/n")
	add(dimCompliance, 1e3, "m/n", "m/newton", "metre/newton", "metres/newton", "meters/newton")
	add(dimStiffness, 1, "n/mm")
	add(dimStiffness, 1e-3, "n/m")
	add(dimMechanical, 1, "kg/s", "kg/sec", "ns/m", "nsec/m", "n*s/m", "n-s/m", "mechanicalohm", "mechanicalohms", "mechohm", "mechohms", "kgs-1")
	add(dimMechanical, 1e-3, "g/s")
	add(dimInductance, 1, "mh", "millihenry", "millihenries", "millihenrys")
	add(dimInductance, 1e-3, "uh", "microhenry", "microhenries")
	add(dimInductance, 1e3, "h", "henry")
	add(dimLength, 1, "mm", "millimetre", "millimetres", "millimeter", "millimeters")
	add(dimLength, 10, "cm", "centimetres", "centimeters")
	add(dimLength, 1e3, "m")
	add(dimLength, 25.4, "in", "inch", "inches", "zoll", "\"", "''", "pouces", "pollici")
	add(dimPower, 1, "w", "watt", "watts", "wrms", "wattsrms", "wattrms", "vatios")
	add(dimPower, 1e3, "kw")
	add(dimLevel, 1, "db", "dbspl")
	add(dimOther, 1, "v", "volt", "volts", "vrms", "a", "%", "°c", "°f", "s", "ms", "t", "tesla", "layers", "n", "db/oct", "uf", "pa", "years", "pcs", "€", "$", "£", "eur", "usd", "gbp")
	return out
}()

// foldable marks that a unit may be written with or without.
func foldable(r rune) bool {
	return strings.ContainsRune(" .·*^_\u22c5", r)
}

// unitAt reads the longest unit at place i of the line, skipping blanks. It
// returns the place behind it.
func unitAt(line []rune, i int) (sheetUnit, int, bool) {
	for i < len(line) && line[i] == ' ' {
		i++
	}
	var best sheetUnit
	bestEnd := -1
	for _, u := range sheetUnits {
		end, ok := matchFolded(line, i, u.folded)
		if ok && end > bestEnd {
			best, bestEnd = u, end
		}
	}
	return best, bestEnd, bestEnd >= 0
}

func matchFolded(line []rune, i int, folded string) (int, bool) {
	first := true
	for _, want := range folded {
		if !first && want != '*' {
			// At most two marks between the letters of a unit.
			for n := 0; n < 2 && i < len(line) && foldable(line[i]) && line[i] != want; n++ {
				i++
			}
		}
		if i >= len(line) || line[i] != want {
			return 0, false
		}
		first = false
		i++
	}
	last := line[i-1]
	if i < len(line) && isWordRune(last) && isWordRune(line[i]) {
		return 0, false
	}
	return i, true
}

func isLetter(r rune) bool {
	return r >= 'a' && r <= 'z' || r == 'ω' || r > 0xbf && r != '×' && r < 0x2000 && r != 'ω'
}
func isDigit(r rune) bool    { return r >= '0' && r <= '9' }
func isWordRune(r rune) bool { return isLetter(r) || isDigit(r) }
