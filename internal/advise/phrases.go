package advise

import "bootfloor/internal/job"

// meaning is what a phrase stands for.
type meaning struct {
	key, say, value string
	why             string // a doubt that the phrase always brings
}

// phrases are the trade words for body styles and box types, lower case, one
// space between words. British and American, and the usual spellings.
var phrases = func() map[string]meaning {
	m := map[string]meaning{}
	body := func(key, why string, words ...string) {
		b, ok := job.FindBody(key)
		if !ok {
			panic("advise: no body style " + key)
		}
		for _, w := range words {
			m[w] = meaning{"body", b.Name, key, why}
		}
	}
	body("small_hatch", "", "small hatch", "small hatchback", "small car", "city car", "town car", "supermini", "three door hatch", "3 door hatch", "3 door", "3 dr")
	body("hatch", "", "hatch", "hatchback", "family hatch", "family hatchback", "five door", "five door hatch", "5 door hatch", "5 door", "5 dr")
	body("saloon", "", "saloon", "sedan", "salon", "four door", "four door saloon", "four door sedan", "4 door", "4 dr", "4 door saloon", "4 door sedan")
	body("estate", "", "estate", "wagon", "station wagon", "estate car", "tourer", "shooting brake")
	body("off_roader_short", "", "short off roader", "short suv", "small suv", "short wheelbase", "swb")
	body("off_roader_long", "", "long off roader", "large suv", "big suv", "people carrier", "mpv", "minivan", "lwb", "long wheelbase")
	body("off_roader_long", "Taken for a long one; say short if it has three doors.", "suv", "off roader", "offroader", "off road", "four by four", "4 x 4", "4 by 4", "4 wd", "crossover")
	body("panel_van", "", "van", "panel van", "camper", "camper van", "campervan")
	body("pick_up", "", "pick up", "pickup", "pick up cab", "truck", "ute", "pickup truck")
	body("coupe", "", "coupe", "two door", "two door coupe", "2 door", "2 door coupe", "2 dr", "sports car")
	body("open_car", "", "open car", "convertible", "cabriolet", "cabrio", "roadster", "soft top", "drop top", "softtop")
	box := func(key, say, why string, words ...string) {
		for _, w := range words {
			m[w] = meaning{"type", say, key, why}
		}
	}
	box("sealed", "sealed box", "", "sealed", "sealed box", "closed", "closed box", "acoustic suspension", "airtight")
	box("vented", "vented box", "", "vented", "ported", "vented box", "ported box", "reflex", "bass reflex", "port", "vent")
	box("passive_radiator", "passive radiator", "", "passive radiator", "passive radiators", "passive", "pr", "abr", "drone cone")
	box("infinite_baffle", "infinite baffle", "", "infinite baffle", "free air", "freeair", "ib", "baffle board")
	box("bandpass4", "band-pass, fourth order", "", "bandpass", "band pass", "fourth order", "fourth order bandpass", "bandpass box", "4 th order", "4 th order bandpass", "4 th order band pass")
	box("bandpass6_parallel", "band-pass, sixth order", "Taken for the parallel kind.", "sixth order", "sixth order bandpass", "6 th order", "6 th order bandpass", "6 th order band pass")
	box("bandpass6_series", "band-pass, sixth order, series", "", "series bandpass", "series sixth order")
	box("line", "quarter-wave line", "", "transmission line", "quarter wave", "t line", "tl", "quarter wave line", "tapped line", "line")
	box("aperiodic", "aperiodic box", "", "aperiodic", "aperiodic vent", "aperiodic box", "resistive vent")
	box("", "whichever type suits", "", "whatever", "whatever suits", "any", "any box", "any type", "best box")
	return m
}()

// fillers are words that say nothing about the box.
var fillers = set("sub", "subs", "subwoofer", "subwoofers", "woofer", "woofers", "bass", "box", "boxes", "boxed", "enclosure", "enclosures",
	"in", "a", "an", "the", "of", "with", "and", "at", "on", "for", "my", "his", "her", "our", "car", "boot", "trunk", "amp", "amps",
	"amplifier", "driver", "drivers", "speaker", "speakers", "unit", "units", "net", "nett", "to", "from", "into", "it", "is", "i", "we",
	"want", "need", "please", "inch", "x", "about", "around", "approx", "roughly", "circa", "ca", "per", "each", "power", "volume", "air", "some", "one",
	"@", "by", "rms", "back", "rear", "mono", "class", "d", "or", "so", "loud")

// tuningWords announce or follow a tuning.
var tuningWords = set("tuned", "tuning", "tune", "fb")

// numberWords are numbers in words, as counts or before "inch".
var numberWords = map[string]float64{
	"one": 1, "single": 1, "two": 2, "pair": 2, "twin": 2, "dual": 2, "double": 2, "couple": 2, "both": 2, "three": 3, "triple": 3, "four": 4,
	"quad": 4, "six": 6, "eight": 8, "ten": 10, "twelve": 12, "fifteen": 15, "eighteen": 18,
}

// plurals are driver sizes as a trade word of their own.
var plurals = map[string]float64{
	"eights": 8, "tens": 10, "twelves": 12, "fifteens": 15, "eighteens": 18,
}

var inchUnits = set("in", "inch", "inches", "ins", "inchs", "incher", "inchers", "zoll", "pouces")

// volumeUnits are litres per unit.
var volumeUnits = map[string]float64{
	"l": 1, "lt": 1, "lts": 1, "ltr": 1, "ltrs": 1, "lit": 1, "litre": 1, "litres": 1, "liter": 1, "liters": 1, "litr": 1, "litters": 1, "lires": 1,
	"cuft": litresPerCubicFoot, "cf": litresPerCubicFoot, "ft3": litresPerCubicFoot, "cubes": litresPerCubicFoot, "cube": litresPerCubicFoot,
	"cubicfeet": litresPerCubicFoot,
}

// otherUnits belong to numbers that say nothing here.
var otherUnits = set("ohm", "ohms", "v", "volt", "volts", "hz", "hertz", "db", "awg", "m", "metre", "metres", "meter", "meters", "a", "amps", "kg", "mph", "khz")

// isCubic tells "cu ft", "cubic feet" and the like.
func isCubic(a, b string) bool {
	return (a == "cu" || a == "cubic" || a == "cub") && (b == "ft" || b == "feet" || b == "foot" || b == "ft3")
}

// powerUnits are watts per unit.
var powerUnits = map[string]float64{
	"w": 1, "wt": 1, "watt": 1, "watts": 1, "wats": 1, "wrms": 1, "wattsrms": 1, "rms": 1, "kw": 1000, "kilowatt": 1000, "kilowatts": 1000, "kwatt": 1000, "kwrms": 1000, "k": 1000,
}

func set(words ...string) map[string]bool {
	m := make(map[string]bool, len(words))
	for _, w := range words {
		m[w] = true
	}
	return m
}

// nearPhrase finds the one phrase of a single word that differs from what was
// typed by one slip (insertion, loss, change or swap of neighbours), or by two
// in a word of eight letters or more. Words under five letters, and those known for
// something else, are not guessed at.
func nearPhrase(word string) (meaning, string, bool) {
	if len(word) < 5 || len(word) > 20 || fillers[word] || volumeUnits[word] > 0 || powerUnits[word] > 0 || inchUnits[word] || plurals[word] > 0 {
		return meaning{}, "", false
	}
	allowed := 1
	if len(word) >= 8 {
		allowed = 2
	}
	bestWord, best, ties := "", allowed+1, false
	for p, m := range phrases {
		if len(p) < 5 {
			continue
		}
		d := slips(word, p, allowed)
		switch {
		case d > allowed || d > best:
		case d < best:
			bestWord, best, ties = p, d, false
		case m.value != phrases[bestWord].value:
			ties = true
		case p < bestWord:
			bestWord = p // the same meaning: the answer must not hang on map order
		}
	}
	if bestWord == "" || ties {
		return meaning{}, "", false
	}
	return phrases[bestWord], bestWord, true
}

// slips is the Damerau-Levenshtein distance (optimal string alignment) of two
// ASCII words, or more than most where they differ by more.
func slips(a, b string, most int) int {
	if d := len(a) - len(b); d > most || -d > most {
		return most + 1
	}
	rows := make([][]int, len(a)+1)
	for i := range rows {
		rows[i] = make([]int, len(b)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			rows[i][j] = min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				rows[i][j] = min(rows[i][j], rows[i-2][j-2]+1)
			}
		}
	}
	return rows[len(a)][len(b)]
}
