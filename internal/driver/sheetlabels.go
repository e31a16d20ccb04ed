package driver

import "strings"

// What a label on a sheet may ask for beside a plain key.
const (
	keySensitivity Key = "sensitivity_db"
	keyIgnored     Key = "" // understood, and of no use here
)

// label is a way to write the name of a parameter: words in lower case.
type label struct {
	words []string
	key   Key
	dim   dimension
	doubt string // why a value under this label is not taken as it stands
	// make turns a figure in the dimension's base unit into the key's unit;
	// nil leaves it.
	make func(float64) float64
}

// labels holds the spellings that sheets use, English first, with the commonest
// German, French, Italian and Spanish ones.
var sheetLabels = func() []label {
	var out []label
	add := func(key Key, dim dimension, doubt string, turn func(float64) float64, names ...string) {
		for _, n := range names {
			out = append(out, label{strings.Fields(n), key, dim, doubt, turn})
		}
	}
	add(KeyFs, dimFrequency, "", nil, "fs", "f s", "f0", "f 0", "fo", "f o", "fres", "resonance frequency", "resonant frequency",
		"free air resonance", "free air resonance frequency", "resonance", "resonance freq", "free air resonant frequency", "freeair resonance", "fundamental resonance",
		"resonanzfrequenz", "eigenresonanz", "freiluftresonanz", "fréquence de résonance", "frequenza di risonanza", "frecuencia de resonancia")
	add(KeyQts, dimNone, "", nil, "qts", "q ts", "total q", "total q factor", "qt", "q total", "total qts", "gesamtgüte", "total speaker q")
	add(KeyQts, dimNone, "Qtc is the Q of the driver in a box, not that of the driver", nil, "qtc", "q tc")
	add(KeyQts, dimNone, "Qtp counts losses that Qts does not", nil, "qtp")
	add(KeyQes, dimNone, "", nil, "qes", "q es", "electrical q", "electrical q factor", "qe", "qel", "q electrical", "elektrische güte", "electric q")
	add(KeyQms, dimNone, "", nil, "qms", "q ms", "mechanical q", "mechanical q factor", "qm", "q mechanical", "mechanische güte", "mech q")
	add(KeyVas, dimVolume, "", nil, "vas", "v as", "equivalent volume", "equivalent air volume", "equivalent compliance volume", "compliance volume",
		"equivalent volume of air", "equivalent cas air load", "equivalent air volume of suspension", "äquivalentvolumen", "äquivalentes luftvolumen", "volume équivalent", "volume equivalente")
	add(KeySd, dimArea, "", nil, "sd", "s d", "effective piston area", "piston area", "cone area", "effective cone area", "effective area", "effective radiating area",
		"diaphragm area", "effective diaphragm area", "radiating area", "surface area", "effective surface area", "membranfläche", "surface émissive", "superficie")
	fromDiameter := func(mm float64) float64 { return 0.785398163397448 * mm * mm / 100 }
	add(KeySd, dimLength, "worked out from the diameter of the cone", fromDiameter, "effective piston diameter", "piston diameter", "effective cone diameter", "effective diameter")
	add(KeyBl, dimForce, "", nil, "bl", "b l", "b x l", "bxl", "b × l", "force factor", "bl product", "bl factor", "motor force factor", "kraftfaktor", "facteur de force", "fattore di forza")
	add(KeyMms, dimMass, "", nil, "mms", "m ms", "moving mass", "moving mass incl air", "moving mass including air load", "moving mass incl air load", "total moving mass",
		"mass of moving parts", "bewegte masse", "masse mobile", "massa mobile")
	add(KeyMms, dimMass, "Mmd is the moving mass without the air on the cone; Mms is a few grams to some tens of grams more", nil, "mmd", "m md", "diaphragm mass", "dry mass", "moving mass without air", "moving mass excl air")
	add(KeyCms, dimCompliance, "", nil, "cms", "c ms", "compliance", "suspension compliance", "mechanical compliance", "mechanical compliance of suspension", "nachgiebigkeit")
	add(KeyCms, dimStiffness, "", func(k float64) float64 { return 1 / k }, "kms", "k ms", "stiffness", "suspension stiffness")
	add(KeyRms, dimMechanical, "", nil, "rms", "r ms", "mechanical resistance", "mechanical loss", "mechanical losses", "mechanical resistance of total driver losses")
	add(KeyRe, dimResistance, "", nil, "re", "r e", "dc resistance", "dcr", "rdc", "r dc", "revc", "voice coil resistance", "voice coil dc resistance", "coil resistance",
		"dc coil resistance", "direct current resistance", "gleichstromwiderstand", "résistance dc", "résistance au courant continu", "resistenza dc")
	add(KeyLe, dimInductance, "", nil, "le", "l e", "levc", "lvc", "lbm", "inductance", "voice coil inductance", "coil inductance", "schwingspuleninduktivität", "induktivität", "inductance de la bobine", "induttanza")
	add(KeyL2, dimInductance, "", nil, "l2", "l 2", "le2")
	add(KeyR2, dimResistance, "", nil, "r2", "r 2", "re2")
	add(KeyXmax, dimLength, "", nil, "xmax", "x max", "x lin", "xlin", "max linear excursion", "maximum linear excursion", "linear excursion", "linear travel", "linear coil travel", "one way linear excursion",
		"one way excursion", "linear cone travel", "lineare auslenkung", "lineare membranauslenkung", "excursion linéaire", "escursione lineare")
	add(keyIgnored, dimLength, "", nil, "xmech", "x mech", "xlim", "xsus", "xdamage", "max excursion", "maximum excursion", "mechanical excursion", "excursion limit", "maximum mechanical excursion", "damage excursion")
	add(KeyPower, dimPower, "", nil, "power handling", "rated power", "nominal power", "continuous power", "rms power", "power rms", "power handling rms", "rms power handling", "pe", "p e", "pe rms", "pnom",
		"thermal power", "thermal power handling", "power rating", "rms", "aes power", "nominal power handling", "continuous power handling", "rated noise power", "pwr", "power",
		"belastbarkeit", "nennbelastbarkeit", "dauerbelastbarkeit", "puissance", "puissance nominale", "puissance rms", "potenza", "potenza nominale", "potencia", "potencia rms")
	add(keyIgnored, dimPower, "", nil, "peak power", "pmax", "p max", "max power", "maximum power", "music power", "program power", "peak power handling", "maximum power handling", "max power handling", "musikbelastbarkeit",
		"puissance max", "recommended amplifier power", "recommended amplifier", "recommended power", "recommended amp power", "continuous program")
	add(KeySize, dimLength, "", func(mm float64) float64 { return mm / 25.4 }, "nominal size", "nominal diameter", "size", "driver size", "speaker size", "nominal basket diameter", "nenndurchmesser")
	add(KeyDepth, dimLength, "", nil, "mounting depth", "depth", "installation depth", "mount depth", "top mount depth", "einbautiefe", "profondeur", "profondeur de montage")
	add(KeyCutOut, dimLength, "", nil, "cut out", "cutout", "cut out diameter", "cutout diameter", "baffle cutout", "baffle cutout diameter", "mounting hole", "mounting hole diameter", "mounting cutout",
		"mounting diameter", "hole diameter", "einbauöffnung", "einbaudurchmesser", "baffle hole", "baffle hole diameter")
	add(KeyOutside, dimLength, "", nil, "outside diameter", "outer diameter", "overall diameter", "frame diameter", "außendurchmesser", "frame outside diameter", "frame outer diameter")
	add(KeyVolume, dimVolume, "", nil, "displacement", "driver displacement", "woofer displacement", "speaker displacement", "driver volume", "volume displaced by driver", "volume occupied by driver", "displacement volume", "displaced volume", "verdrängung", "vd driver")
	add(KeyMass, dimMass, "", func(g float64) float64 { return g / 1000 }, "net weight", "weight", "driver weight", "speaker weight", "gewicht", "nettogewicht", "poids", "peso", "unit weight")
	add(keyIgnored, dimMass, "", nil, "shipping weight", "gross weight", "magnet weight", "packed weight", "magnet mass", "weight of magnet", "magnetgewicht")
	add(KeyCoilOhm, dimResistance, "", nil, "nominal impedance", "impedance", "rated impedance", "nennimpedanz", "impedanz", "impédance", "impedenza", "impedancia", "znom", "z nom", "zn", "nominal impedance per coil", "impedance per coil", "coil impedance")
	add(keyIgnored, dimResistance, "", nil, "minimum impedance", "min impedance", "zmin", "zmax", "maximum impedance", "res", "impedance at fs")
	add(keySensitivity, dimLevel, "", nil, "sensitivity", "spl", "efficiency", "reference sensitivity", "half space sensitivity", "rendement", "empfindlichkeit", "wirkungsgrad", "sensibilità", "sensibilidad", "sensibilité", "usable sensitivity", "characteristic sensitivity")
	add(keyIgnored, dimOther, "", nil, "reference efficiency", "n0", "no", "η0", "eta", "eta0", "ebp", "efficiency bandwidth product", "vd", "displacement vd", "sd x xmax", "peak volume displacement", "volume displacement", "flux density", "magnetic flux",
		"frequency response", "frequency range", "usable frequency range", "recommended frequency range", "voice coil diameter", "coil diameter", "vcd", "voice coil height", "coil height", "voice coil length", "winding height", "gap height", "air gap height", "top plate thickness", "winding depth",
		"magnet", "magnet diameter", "magnet size", "number of layers", "voice coil layers", "recommended volume", "sealed volume", "vented volume", "ported volume", "enclosure volume", "recommended enclosure", "recommended enclosure volume", "sealed box", "ported box", "sealed", "ported", "vented",
		"tuning", "tuning frequency", "port", "port tuning", "fb", "vb", "fc", "f3", "screws", "bolt circle", "bolt circle diameter", "bolt holes", "number of bolts", "krm", "erm", "kxm", "exm", "cmes", "lces", "lm", "lnom", "lambda s", "motor constant", "bl 2 re", "bl2 re", "β", "ß", "mechanical q losses", "warranty", "order code", "part number", "model number", "ean", "upc", "price", "rev", "revision", "date", "page", "driver radius", "crossover", "crossover frequency")
	return out
}()

var labelsByWord = func() map[string][]int {
	m := map[string][]int{}
	for i, l := range sheetLabels {
		m[l.words[0]] = append(m[l.words[0]], i)
	}
	return m
}()

// fillers are words that may stand between a label and its value without
// casting doubt on it.
var fillers = func() map[string]bool {
	m := map[string]bool{}
	for _, l := range sheetLabels {
		for _, w := range l.words {
			m[w] = true
		}
	}
	for _, w := range strings.Fields(`of the at in is to for and or by with driver speaker woofer subwoofer free air load typ typical approx about ca circa value nominal
		one way oneway peak linear max maximum min included incl including excl both coils coil voice parallel series per each total unit loudspeaker effective single dual side half-space dc der des de la du di del
		factor product frequency resistance inductance 1khz 1 khz 1w 1m 2 83v rms continuous each measured electrical mechanical equivalent suspension parameter symbol piston cone diaphragm area
		peak-to-peak pp p aes long short term rated lf mass moving xmax mm hz ohm ohms g kg l cm2 tm mh w db n a`) {
		m[w] = true
	}
	return m
}()

// found is a label at its place in a line.
type found struct {
	label
	from, to int
}

// findLabels returns the labels of a folded line, longest first at each place,
// from left to right.
func findLabels(line []rune) []found {
	words := splitWords(line)
	var out []found
	for i := 0; i < len(words); {
		best, length := -1, 0
		for _, candidate := range labelsByWord[words[i].text] {
			l := sheetLabels[candidate]
			if len(l.words) > length && matchWords(line, words[i:], l.words) {
				best, length = candidate, len(l.words)
			}
		}
		if best >= 0 && words[i].text == "rms" && length == 1 && i > 0 && isWatts(words[i-1].text) {
			best = -1 // "500 W RMS" ends a rating, it names nothing
		}
		if best < 0 || !standsAlone(line, words[i].from, words[i+length-1].to) {
			i++
			continue
		}
		out = append(out, found{sheetLabels[best], words[i].from, words[i+length-1].to})
		i += length
	}
	return out
}

func isWatts(w string) bool {
	w = strings.TrimLeft(w, "0123456789")
	return w == "w" || w == "watt" || w == "watts"
}

// standsAlone rejects a label that is part of a formula, as the Bl in Bl²/Re.
func standsAlone(line []rune, from, to int) bool {
	for to < len(line) && line[to] == ' ' {
		to++
	}
	if to < len(line) && (line[to] == '^' || line[to] == '/' && to+1 < len(line) && isLetter(line[to+1]) && !unitFollows(line, to)) {
		return false
	}
	if from > 0 && (line[from-1] == '/' || line[from-1] == '^') && from > 1 && isWordRune(line[from-2]) {
		return false
	}
	return true
}

// unitFollows tells whether what follows a slash is a unit: "Fs/Hz 28".
func unitFollows(line []rune, slash int) bool {
	_, _, ok := unitAt(line, slash+1)
	return ok
}

type word struct {
	text     string
	from, to int
}

func splitWords(line []rune) []word {
	var out []word
	for i := 0; i < len(line); {
		if !isWordRune(line[i]) {
			i++
			continue
		}
		j := i
		for j < len(line) && isWordRune(line[j]) {
			j++
		}
		out = append(out, word{string(line[i:j]), i, j})
		i = j
	}
	return out
}

func matchWords(line []rune, words []word, want []string) bool {
	if len(words) < len(want) {
		return false
	}
	for i, w := range want {
		if words[i].text != w {
			return false
		}
		if i == 0 {
			continue
		}
		gap := line[words[i-1].to:words[i].from]
		if len(gap) > 2 {
			return false
		}
		for _, r := range gap {
			if !strings.ContainsRune(" _-.·*()'&+,", r) {
				return false
			}
		}
	}
	return true
}
