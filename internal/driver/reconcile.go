package driver

import (
	"fmt"
	"math"
)

// compare returns a finding for each stated value outside the basis that the
// completed set v contradicts.
func (g givenSet) compare(v values, basis mask) []Finding {
	var out []Finding
	for i, k := range smallKeys {
		if !g.known.has(i) || basis.has(i) {
			continue
		}
		share := g.v[i]/v[i] - 1
		if math.Abs(share) <= g.allowed(v, basis, i) {
			continue
		}
		unit := quantityByKey[k].SI
		from := g.sources(v, basis, i)
		f := Finding{
			Key: k, Level: LevelWarning, From: from,
			Entered: g.v[i] / unit, Expected: v[i] / unit, Share: share,
		}
		f.Say = fmt.Sprintf("%s from %s is %s, %s was entered (%s)",
			k.label(), labels(from, "and"), k.write(f.Expected), k.write(f.Entered), moreOrLess(share))
		out = append(out, f)
	}
	return out
}

func moreOrLess(share float64) string {
	switch {
	case share > 1:
		return figures(share+1) + " times as much"
	case share < 0:
		return fmt.Sprintf("%.0f %% less", -100*share)
	}
	return fmt.Sprintf("%.0f %% more", 100*share)
}

// allowed returns the share by which the value at place i may differ from the
// one that the basis gives: the agreement asked for, the last figure of the
// value itself, and what the last figures of the others do to the result.
func (g givenSet) allowed(v values, basis mask, i int) float64 {
	share := agreement + g.round[i]
	for j := 0; j < nSmall; j++ {
		if !basis.has(j) {
			continue
		}
		w, ok := g.nudged(basis, j, g.round[j])
		if !ok {
			// The last figure decides whether there is a solution at all.
			share += 1
			continue
		}
		change := math.Abs(w[i]/v[i] - 1)
		if j == iVas && change > 0 {
			share += agreementVas
		}
		share += change
	}
	if i == iVas {
		share += agreementVas
	}
	return share
}

// sources returns the basis values on which the one at place i depends.
func (g givenSet) sources(v values, basis mask, i int) []Key {
	var out []Key
	for j, k := range smallKeys {
		if !basis.has(j) {
			continue
		}
		w, ok := g.nudged(basis, j, 1e-4)
		if !ok || math.Abs(w[i]/v[i]-1) > 1e-8 {
			out = append(out, k)
		}
	}
	return out
}

// reconcile compares the stated values with the completed set, and where one or
// a few of them must be wrong completes it again from the others first.
func (g givenSet) reconcile(v values, basis mask) (values, mask, []Finding) {
	clashes := g.compare(v, basis)
	if len(clashes) == 0 {
		return v, basis, nil
	}
	suspects := g.suspects()
	if len(suspects) > 0 {
		doubted := g.doubting(suspects)
		if other := doubted.basis(g.known); other != basis {
			if w, ok := doubted.complete(other); ok {
				v, basis = w, other
				clashes = doubted.compare(v, basis)
			}
		}
	}
	explain(clashes, suspects)
	return v, basis, clashes
}

// partial compares what is stated where it is not enough for a driver, by
// putting middling values for what lacks: being independent of the stated
// ones, they contradict nothing.
func (g givenSet) partial() []Finding {
	for _, i := range askFor {
		if closure(g.known).has(i) {
			continue
		}
		q := quantityByKey[smallKeys[i]]
		g.v[i] = math.Sqrt(q.Low*q.High) * q.SI
		if i == iQes && g.known.has(iQts) {
			g.v[i] = 1.5 * g.v[iQts]
		}
		g.known |= bit(i)
	}
	basis := g.basis(g.known)
	v, ok := g.complete(basis)
	if !ok {
		return []Finding{{Key: KeyQts, Level: LevelWarning, Say: g.contraryQ(), Suspects: g.contraryKeys()}}
	}
	_, _, clashes := g.reconcile(v, basis)
	return clashes
}

// suspects returns the stated values, not among the trusted, that each explain
// every disagreement: without it the others are consistent and still checked
// against one another or at least complete.
func (g givenSet) suspects() []int {
	var out []int
	for i := range smallKeys {
		if !g.known.has(i) || g.trust.has(i) {
			continue
		}
		rest := g
		rest.known &^= bit(i)
		if closure(rest.known) != allSmall {
			continue
		}
		basis := rest.basis(rest.known)
		v, ok := rest.complete(basis)
		if ok && len(rest.compare(v, basis)) == 0 {
			out = append(out, i)
		}
	}
	return out
}

// doubting returns the same set with the suspects trusted least, so that what
// is certain is used first and as few values as possible are contradicted.
func (g givenSet) doubting(suspects []int) givenSet {
	last := mask(0)
	for _, i := range suspects {
		last |= bit(i)
	}
	old := g.order
	g.order = nil
	for _, i := range old {
		if !last.has(i) {
			g.order = append(g.order, i)
		}
	}
	for _, i := range old {
		if last.has(i) {
			g.order = append(g.order, i)
		}
	}
	return g
}

// explain ends each disagreement with what can be told about who is wrong.
func explain(clashes []Finding, suspects []int) {
	keys := make([]Key, len(suspects))
	for i, s := range suspects {
		keys[i] = smallKeys[s]
	}
	for i := range clashes {
		c := &clashes[i]
		c.Suspects = keys
		switch {
		case len(keys) == 1:
			c.Odd = true
			c.Say += fmt.Sprintf(". All the others agree with one another, so %s is the odd one out and was left aside.", keys[0].label())
		case len(keys) > 1:
			c.Say += fmt.Sprintf(". One of %s must be wrong, the values do not tell which; %s taken. Choose which to trust.",
				labels(keys, "or"), wasTaken(c.From))
		default:
			c.Say += fmt.Sprintf(". No single value explains it; %s taken. Check them all against the sheet, or choose which to trust.",
				wasTaken(c.From))
		}
	}
}

func wasTaken(keys []Key) string {
	if len(keys) == 1 {
		return keys[0].label() + " was"
	}
	return labels(keys, "and") + " were"
}

// contraryQ says why no positive set of Q values exists.
func (g givenSet) contraryQ() string {
	for _, other := range []int{iQes, iQms} {
		if g.known.has(iQts) && g.known.has(other) && g.v[iQts] >= g.v[other] {
			return fmt.Sprintf("Qts is %s but %s is %s: Qts is always the smaller, because 1/Qts = 1/Qes + 1/Qms. Check both, or enter Qes and Qms.",
				figures(g.v[iQts]), smallKeys[other].label(), figures(g.v[other]))
		}
	}
	return "Qts is not smaller than the Qes or Qms that the other values give, and it must be, because 1/Qts = 1/Qes + 1/Qms. Check Qts, Bl, Re and Mms, or enter Qes and Qms."
}

func (g givenSet) contraryKeys() []Key {
	return keysOf(g.known & allQ)
}

// askFor orders the parameters by how likely a sheet or a meter has them.
var askFor = [nSmall]int{iFs, iRe, iSd, iQes, iQms, iQts, iVas, iMms, iBl, iCms, iRms}

// wanting names what would complete the set: values without which nothing
// helps, then the choices for the last one.
func (g givenSet) wanting() string {
	known := closure(g.known)
	missing := rankMissing(known)
	var needed []Key
	for ; missing > 1; missing-- {
		for _, i := range askFor {
			if !known.has(i) && rankMissing(closure(known|bit(i))) == missing-1 {
				needed = append(needed, smallKeys[i])
				known = closure(known | bit(i))
				break
			}
		}
	}
	var choices []Key
	for _, i := range askFor {
		if !known.has(i) && closure(known|bit(i)) == allSmall {
			choices = append(choices, smallKeys[i])
		}
	}
	last := choices[0].label()
	if len(choices) > 1 {
		last = "one of " + labels(choices, "or")
	}
	have := "Nothing is entered yet"
	if g.known != 0 {
		have = "Not enough to work out the driver from " + labels(keysOf(g.known), "and")
	}
	say := fmt.Sprintf("%s: add %s.", have, join(append(words(needed), last), "and"))
	for _, k := range append(needed, choices...) {
		if k == KeySd {
			say += " The cone area can be measured: the diameter to the middle of the surround on each side, squared, times 0.785."
		}
	}
	return say
}

func words(keys []Key) []string {
	out := make([]string, len(keys))
	for i, k := range keys {
		out[i] = k.label()
	}
	return out
}

// rankMissing counts how many more independent values a closed set wants.
func rankMissing(closed mask) int {
	n := 0
	for closed != allSmall {
		// Whatever comes first and is not yet known is independent of the rest.
		for i := range smallKeys {
			if !closed.has(i) {
				closed = closure(closed | bit(i))
				n++
				break
			}
		}
	}
	return n
}

func keysOf(m mask) []Key {
	var out []Key
	for i, k := range smallKeys {
		if m.has(i) {
			out = append(out, k)
		}
	}
	return out
}
