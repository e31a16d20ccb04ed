package advise

import (
	"fmt"
	"math"
	"strings"
)

// compare writes what each choice gains and gives up beside the balanced one,
// and the balanced one beside the rest, and why each is here.
func (w *which) compare(choices []Choice) {
	ref := -1
	for i, c := range choices {
		for _, b := range c.PickedFor {
			if b == "balanced" {
				ref = i
			}
		}
	}
	for i := range choices {
		c := &choices[i]
		c.Why = w.why(*c)
		if i == ref || ref < 0 {
			c.Gain, c.GiveUp = balancedWords(*c, choices)
			continue
		}
		better, worse := differences(*c, choices[ref])
		c.Gain = sentenceOf(better, " than the balanced one.", "No more than the balanced one, in another way.")
		c.GiveUp = sentenceOf(worse, " than the balanced one.", "Nothing beside the balanced one.")
	}
}

// why says what a choice is here for, and how it meets what was asked.
func (w *which) why(c Choice) string {
	words := map[string]string{
		"balanced": "the best balance of depth, level and size",
		"smallest": "the smallest that does it",
		"deepest":  "the deepest",
		"loudest":  "the loudest",
	}
	var list []string
	meets := c.AskedHz > 0 && c.AskedHz <= w.job.Aim.Lowest
	for _, b := range c.PickedFor {
		if b == "smallest" && !meets {
			list = append(list, "the smallest that comes near")
			continue
		}
		list = append(list, words[b])
	}
	say := "Another way to do it"
	if len(list) > 0 {
		say = capital(joined(list))
	}
	want := fmt.Sprintf("%.0f dB down to %s", w.job.Aim.LevelDB, hertz(w.job.Aim.Lowest))
	switch {
	case meets:
		say += fmt.Sprintf(": it plays the %s you asked for", want)
	case c.AskedHz > 0:
		say += fmt.Sprintf(": of the %s you asked for it plays that loud down to %s", want, hertz(c.AskedHz))
	default:
		say += fmt.Sprintf(": it misses the %s you asked for by %.0f dB", want, math.Max(1, w.job.Aim.LevelDB-c.LevelDB))
	}
	if c.Outside != nil && c.Outside.Litres > 0 {
		say += fmt.Sprintf(", takes %.0f litres and leaves %.0f", c.Outside.Litres, c.BootLeftL)
	} else {
		say += ", and leaves the boot free"
	}
	return say + "."
}

// differences lists in what a is better and worse than b, with what a listener
// or a shopper would notice: a decibel, a tenth of the reach, a tenth of the
// litres and of the price.
func differences(a, b Choice) (better, worse []string) {
	add := func(v float64, up, down string) {
		if v > 0 {
			better = append(better, up)
		} else {
			worse = append(worse, down)
		}
	}
	ra, rb := math.Max(a.ReachHz, lowestHeard), math.Max(b.ReachHz, lowestHeard)
	if r := ra / rb; r < 0.91 || r > 1.1 {
		hz := math.Abs(ra - rb)
		add(rb-ra, fmt.Sprintf("reaches %.0f Hz lower", hz), fmt.Sprintf("%s %.0f Hz higher", reachEnds, hz))
	}
	if d := a.LevelDB - b.LevelDB; math.Abs(d) >= 1 {
		add(d, fmt.Sprintf("plays %.0f dB louder", math.Abs(d)), fmt.Sprintf("plays %.0f dB less loud", math.Abs(d)))
	}
	la, lb := litresOf(a), litresOf(b)
	if r := la / lb; (r < 0.9 || r > 1.1) && math.Abs(la-lb) >= 3 {
		l := math.Abs(la - lb)
		add(lb-la, fmt.Sprintf("leaves %.0f litres more of the boot", l), fmt.Sprintf("leaves %.0f litres less of the boot", l))
	}
	if a.Price > 0 && b.Price > 0 {
		if r := a.Price / b.Price; r < 0.9 || r > 1.1 {
			p := math.Abs(a.Price - b.Price)
			add(b.Price-a.Price, fmt.Sprintf("costs %.0f less", p), fmt.Sprintf("costs %.0f more", p))
		}
	}
	return better, worse
}

// reachEnds begins what is said of less reach, which has a subject of its own.
const reachEnds = "reach ends"

func litresOf(c Choice) float64 {
	if c.Outside == nil || c.Outside.Litres < 5 {
		return 5
	}
	return c.Outside.Litres
}

// balancedWords says what the best of the others have that the balanced one
// has not, and the other way round.
func balancedWords(c Choice, all []Choice) (gain, giveUp string) {
	var better, worse []string
	deepest, loudest, smallest := c, c, c
	for _, o := range all {
		if o.ReachHz < deepest.ReachHz {
			deepest = o
		}
		if o.LevelDB > loudest.LevelDB {
			loudest = o
		}
		if litresOf(o) < litresOf(smallest) {
			smallest = o
		}
	}
	if d := loudest.LevelDB - c.LevelDB; d >= 1 {
		worse = append(worse, fmt.Sprintf("%.0f dB on the loudest here", d))
	}
	if d := math.Max(c.ReachHz, lowestHeard) - math.Max(deepest.ReachHz, lowestHeard); d >= 2 {
		worse = append(worse, fmt.Sprintf("%.0f Hz of depth on the deepest", d))
	}
	if d := litresOf(c) - litresOf(smallest); d >= 3 {
		worse = append(worse, fmt.Sprintf("%.0f litres on the smallest", d))
	}
	if loudest.ID != c.ID {
		if d := litresOf(loudest) - litresOf(c); d >= 3 {
			better = append(better, fmt.Sprintf("leaves %.0f litres more of the boot than the loudest", d))
		}
	}
	if smallest.ID != c.ID {
		if d := c.LevelDB - smallest.LevelDB; d >= 1 {
			better = append(better, fmt.Sprintf("plays %.0f dB louder than the smallest", d))
		}
		if d := math.Max(smallest.ReachHz, lowestHeard) - math.Max(c.ReachHz, lowestHeard); d >= 2 {
			better = append(better, fmt.Sprintf("reaches %.0f Hz lower than the smallest", d))
		}
	}
	gain = sentenceOf(better, ".", "Nothing here does all three better at once.")
	giveUp = "It gives up nothing that another choice here has."
	if len(worse) > 0 {
		giveUp = "Gives up " + joined(worse) + "."
	}
	return gain, giveUp
}

// joined makes a list in words.
func joined(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}

func sentenceOf(list []string, end, none string) string {
	if len(list) == 0 {
		return none
	}
	if rest := list[1:]; strings.HasPrefix(list[0], reachEnds) {
		if len(rest) == 0 {
			return capital(list[0]) + end
		}
		return capital(list[0]) + "; it " + joined(rest) + end
	}
	return capital(joined(list)) + end
}
