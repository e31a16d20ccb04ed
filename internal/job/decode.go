package job

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"sort"
	"strconv"
)

// Opened is a document that was read.
type Opened struct {
	Job Job
	// Findings are notes about what was read: keys given twice or unknown,
	// parts that were missing and filled in, what a migration did.
	Findings []Finding
	// From is the version of the text; smaller than Version when it was
	// migrated.
	From int
}

// Decode reads a job file of this or an older version from outside: see Open.
func Decode(text []byte) (Job, []Finding, error) {
	o, err := Open(text)
	return o.Job, o.Findings, err
}

// Open reads a job file of this or an older version. The text may be hostile:
// its size, depth and number of values are bounded, and nothing in it panics.
// The values are only read here; Check judges them.
//
// On error there is no job; the error is a sentence. When single values are of
// the wrong kind the findings name every one of them.
func Open(text []byte) (Opened, error) {
	root, found, err := parse(text)
	if err != nil {
		return Opened{}, err
	}
	return openTree(root, found)
}

// openTree is Open from the parsed text on.
func openTree(root *node, found []Finding) (Opened, error) {
	from, err := versionOf(root)
	if err != nil {
		return Opened{}, err
	}
	notes, err := migrate(root, from)
	found = append(found, notes...)
	if err != nil {
		return Opened{Findings: found, From: from}, err
	}
	r := &reader{found: found}
	r.fillMissing(root)
	var j Job
	r.value("", root, reflect.ValueOf(&j).Elem())
	r.found = capped(r.found)
	if r.wrong > 0 {
		return Opened{Findings: r.found, From: from}, r.refusal()
	}
	j.Version = Version
	o := Opened{Job: Canonical(j), Findings: r.found, From: from}
	return o, nil
}

// versionOf checks that the text is a job file which this package can read.
func versionOf(root *node) (int, error) {
	if root.kind != isObject {
		return 0, fmt.Errorf("The text is not a job file: it holds %s instead of a job.", root.kind)
	}
	f := root.get("format")
	if f == nil || f.kind != isText || f.text != Format {
		what := "it does not say so"
		if f != nil && f.kind == isText {
			what = "it says that it is " + quote(f.text)
		}
		return 0, fmt.Errorf("The text is not a job file: %s; a job file has %q as its format.", what, Format)
	}
	v := root.get("version")
	if v == nil || v.kind != isNumber || v.number != math.Trunc(v.number) || v.number < 0 || v.number > 1e6 {
		return 0, errors.New("The job file does not say its version as a whole number, so it cannot be read safely. Save it again where it was made.")
	}
	if v.number > Version {
		return 0, fmt.Errorf("The job file is of version %d; this page reads versions up to %d. Reload the page to get its newest version, then open the file again.", int(v.number), Version)
	}
	return int(v.number), nil
}

// reader fills the document from the parsed text.
type reader struct {
	found []Finding
	wrong int
	first string
}

func (r *reader) wrongKind(at, want string, n *node) {
	say := fmt.Sprintf("%s must be %s, but the text has %s.", describe(at), want, n.kind)
	r.mistake(at, say)
}

func (r *reader) mistake(at, say string) {
	if r.wrong++; r.wrong == 1 {
		r.first = fmt.Sprintf("%s (at %s)", say[:len(say)-1], at)
	}
	r.found = append(r.found, Errorf(at, "%s", say))
}

func (r *reader) refusal() error {
	more := ""
	if r.wrong > 1 {
		more = fmt.Sprintf(" and %d more %s of the wrong kind", r.wrong-1, plural(r.wrong-1, "value is", "values are"))
	}
	return fmt.Errorf("The job file cannot be read: %s%s. Put it right or save the file again where it was made.", r.first, more)
}

// value reads one node into one Go value.
func (r *reader) value(at string, n *node, v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		r.group(at, n, v)
	case reflect.Slice:
		if n.kind == isNull {
			return
		}
		if n.kind != isList {
			r.wrongKind(at, "a list", n)
			return
		}
		v.Set(reflect.MakeSlice(v.Type(), len(n.list), len(n.list)))
		for i, e := range n.list {
			r.value(at+"/"+strconv.Itoa(i), e, v.Index(i))
		}
	case reflect.Pointer:
		if n.kind == isNull {
			return
		}
		v.Set(reflect.New(v.Type().Elem()))
		r.value(at, n, v.Elem())
	case reflect.String:
		if n.kind != isText {
			r.wrongKind(at, "text", n)
			return
		}
		v.SetString(n.text)
	case reflect.Bool:
		if n.kind != isBool {
			r.wrongKind(at, "true or false", n)
			return
		}
		v.SetBool(n.truth)
	case reflect.Float64:
		if n.kind != isNumber {
			r.wrongKind(at, "a number", n)
			return
		}
		v.SetFloat(n.number)
	case reflect.Int:
		if n.kind != isNumber {
			r.wrongKind(at, "a whole number", n)
			return
		}
		if n.number != math.Trunc(n.number) || math.Abs(n.number) > 1e6 {
			r.mistake(at, fmt.Sprintf("%s must be a whole number up to a million, but the text has %s.", describe(at), Number(n.number, "")))
			return
		}
		v.SetInt(int64(n.number))
	default:
		panic("job: the document has a field of a kind that the reader does not know: " + v.Type().String())
	}
}

// group reads an object into a struct, and notes the keys that no field has.
func (r *reader) group(at string, n *node, v reflect.Value) {
	if n.kind != isObject {
		r.wrongKind(at, "a group of values", n)
		return
	}
	known := map[string]bool{}
	for i := 0; i < v.NumField(); i++ {
		key, _ := tag(v.Type().Field(i))
		known[key] = true
		if m := n.get(key); m != nil {
			r.value(at+"/"+key, m, v.Field(i))
		}
	}
	for _, m := range n.members {
		if !known[m.key] {
			where := cut(at + "/" + escapeKey(m.key))
			r.found = append(r.found, Notef(where, "The value %s in %s is not part of a job and was left out.", quote(m.key), place(at)))
		}
	}
}

func place(at string) string {
	if at == "" {
		return "the document"
	}
	return at
}

// fillMissing gives whole parts that the text leaves out their usual values,
// marked as assumed. Single missing values are left at zero for Check.
func (r *reader) fillMissing(root *node) {
	usual := map[string]any{"air": DefaultAir(), "aim": DefaultAim(), "tolerance": DefaultTolerance()}
	keys := []string{"air", "aim", "tolerance"}
	for _, key := range keys {
		if n := root.get(key); n != nil && n.kind != isNull {
			continue
		}
		part := nodeOf(reflect.ValueOf(usual[key]))
		root.set(key, part)
		assumed := root.get("assumed")
		if assumed == nil || assumed.kind == isNull {
			assumed = &node{kind: isList}
			root.set("assumed", assumed)
		}
		part.leaves("/"+key, func(at string, _ *node) {
			assumed.list = append(assumed.list, &node{kind: isText, text: at})
		})
		r.found = append(r.found, Notef("/"+key, "The text says nothing about %s; the usual values were taken and marked as assumed.", labels()["/"+key]))
	}
}

// nodeOf writes a flat struct of numbers, texts and lists of text as a node.
func nodeOf(v reflect.Value) *node {
	n := &node{kind: isObject}
	for i := 0; i < v.NumField(); i++ {
		key, optional := tag(v.Type().Field(i))
		f := v.Field(i)
		if optional && f.IsZero() {
			continue
		}
		switch f.Kind() {
		case reflect.Float64:
			n.set(key, &node{kind: isNumber, number: f.Float()})
		case reflect.String:
			n.set(key, &node{kind: isText, text: f.String()})
		}
	}
	return n
}

// capped sorts errors first and keeps the list to a readable length.
func capped(found []Finding) []Finding {
	rank := map[string]int{LevelError: 0, LevelWarning: 1, LevelNote: 2}
	sort.SliceStable(found, func(a, b int) bool { return rank[found[a].Level] < rank[found[b].Level] })
	if len(found) > maxFindings {
		more := len(found) - maxFindings
		found = append(found[:maxFindings:maxFindings], Notef("", "There are %d more findings of this kind.", more))
	}
	return found
}
