package driver

import (
	"bootfloor/internal/air"
)

// Level tells how much a finding matters.
type Level string

// The levels of a finding.
const (
	LevelError   Level = "error"   // no driver can be made of this
	LevelWarning Level = "warning" // look at this before cutting wood
	LevelNote    Level = "note"    // worth knowing
)

// Finding is one thing to say about one stated value.
type Finding struct {
	Key   Key // field it belongs to; empty for the set as a whole
	Level Level
	Say   string // one sentence or two

	// For a disagreement: what was entered, what the other values give (both
	// in the unit of the key), and the difference as a share of the latter.
	Entered, Expected, Share float64
	// From lists the values that gave Expected.
	From []Key
	// Odd is set when the entered value is the one that cannot be right: all
	// the others agree without it.
	Odd bool
	// Suspects lists the values that each would explain the disagreement.
	Suspects []Key
}

// Error is a set of stated values from which no driver can be made.
type Error struct {
	Key Key
	Say string
}

func (e *Error) Error() string { return e.Say }

// agreement is the relative difference up to which two ways to the same value
// count as the same, before the rounding of the printed figures; air adds what
// makers' unstated weather does to Vas. Choices of ours: sheets that are known
// to be consistent stay within, a swapped or mistyped figure does not.
const (
	agreement    = 0.03
	agreementVas = 0.03
)

// defaultTrust orders the parameters by how directly they are measured: an
// impedance curve and a ruler give the first five, a second curve the next,
// and the rest is mostly worked out from them by whoever printed the sheet.
var defaultTrust = [nSmall]int{iRe, iFs, iQes, iQms, iSd, iVas, iMms, iBl, iQts, iCms, iRms}

// Derive completes and checks a stated set. The Driver's Vas is for the air a;
// the stated one is read in the air of stated.MeasuredIn and carried over by
// the compliance, which is the driver's own.
//
// Six independent values of Re, fs, Qes, Qms, Qts, Vas, Sd, Bl, Mms, Cms and
// Rms suffice, whichever they are. With more, each value that was not needed
// is compared with what the others give. A finding is returned for each
// disagreement, and the value that is out of step with all the rest is left
// out where there is just one such value and it is not in stated.Trust.
//
// The error, an *Error, is a sentence saying what would do; the findings then
// hold it too, at its field, and whatever the values entered so far contradict.
func Derive(stated Stated, a air.Properties) (Driver, []Finding, error) {
	findings, err := checkRanges(stated)
	if err != nil {
		return Driver{}, findings, err
	}
	fail := func(k Key, say string) (Driver, []Finding, error) {
		return Driver{}, append(findings, Finding{Key: k, Level: LevelError, Say: say}), &Error{k, say}
	}
	given := gather(stated)
	if closure(given.known) != allSmall {
		findings = append(findings, given.partial()...)
		return fail("", given.wanting())
	}
	basis := given.basis(given.known)
	v, ok := given.complete(basis)
	if !ok {
		d, all, err := fail(KeyQts, given.contraryQ())
		all[len(all)-1].Suspects = given.contraryKeys()
		return d, all, err
	}
	v, basis, clashes := given.reconcile(v, basis)
	findings = append(findings, clashes...)

	d := Driver{Name: stated.Name, Typical: stated.Typical}
	d.setValues(v)
	d.Vas = d.VasIn(a)
	for i, k := range smallKeys {
		if !given.known.has(i) {
			d.Derived = append(d.Derived, Derivation{k, given.sources(v, basis, i)})
		}
	}
	findings = append(findings, d.fillRest(stated)...)
	return d, findings, nil
}

// givenSet is the stated small-signal set in SI, in the air it was measured in.
type givenSet struct {
	v     values
	round values // relative half-width of each printed figure
	known mask
	order []int // most trusted first
	trust mask  // those that the reader said to trust
	bulk  float64
}

func gather(s Stated) givenSet {
	g := givenSet{}
	if s.MeasuredIn != nil {
		g.bulk = s.MeasuredIn.BulkModulus()
	} else {
		g.bulk = air.MustStandard().BulkModulus()
	}
	for i, k := range smallKeys {
		if x, ok := s.Values[k]; ok {
			g.v[i] = x * quantityByKey[k].SI
			g.round[i] = rounding(x)
			g.known |= bit(i)
		}
	}
	listed := mask(0)
	for _, k := range s.Trust {
		if i, ok := smallIndex(k); ok && !listed.has(i) {
			g.order = append(g.order, i)
			listed |= bit(i)
		}
	}
	g.trust = listed
	for _, i := range defaultTrust {
		if !listed.has(i) {
			g.order = append(g.order, i)
		}
	}
	return g
}

// basis picks from the parameters in m, most trusted first, those that do not
// follow from the ones picked before.
func (g givenSet) basis(m mask) mask {
	var picked, follows mask
	for _, i := range g.order {
		if m.has(i) && !follows.has(i) {
			picked |= bit(i)
			follows = closure(picked)
		}
	}
	return picked
}

func (g givenSet) complete(basis mask) (values, bool) {
	var v values
	for i := range v {
		if basis.has(i) {
			v[i] = g.v[i]
		}
	}
	known, ok := solve(&v, basis, g.bulk)
	return v, ok && known == allSmall
}

// nudged completes the basis with one of its values made larger by the share.
func (g givenSet) nudged(basis mask, i int, share float64) (values, bool) {
	g.v[i] *= 1 + share
	return g.complete(basis)
}
