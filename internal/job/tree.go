package job

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"bootfloor/internal/wire"
)

// Bounds on a document from outside. A real job is some ten kilobytes and
// seven levels deep.
const (
	MaxBytes = 1 << 20
	maxDepth = 32
	maxNodes = 50000
	maxKeys  = 200 // in one group of values
)

// kind is what a node of the parsed text is.
type kind byte

const (
	isNull kind = iota
	isBool
	isNumber
	isText
	isList
	isObject
)

func (k kind) String() string {
	return [...]string{"nothing (null)", "true or false", "a number", "text", "a list", "a group of values"}[k]
}

// node is one value of the parsed text. Keys keep their order, so that the
// same text always gives the same findings.
type node struct {
	kind    kind
	truth   bool
	number  float64
	text    string
	list    []*node
	members []member
}

type member struct {
	key   string
	value *node
}

// get returns the member with the key, or nil.
func (n *node) get(key string) *node {
	if n == nil {
		return nil
	}
	for _, m := range n.members {
		if m.key == key {
			return m.value
		}
	}
	return nil
}

// set replaces or adds a member.
func (n *node) set(key string, v *node) {
	for i := range n.members {
		if n.members[i].key == key {
			n.members[i].value = v
			return
		}
	}
	n.members = append(n.members, member{key, v})
}

// take removes a member and returns it, or nil.
func (n *node) take(key string) *node {
	for i, m := range n.members {
		if m.key == key {
			n.members = append(n.members[:i], n.members[i+1:]...)
			return m.value
		}
	}
	return nil
}

// escapeKey writes a key as part of a JSON pointer (RFC 6901).
func escapeKey(key string) string {
	if !strings.ContainsAny(key, "~/") {
		return key
	}
	return strings.ReplaceAll(strings.ReplaceAll(key, "~", "~0"), "/", "~1")
}

// parser reads one JSON text into nodes.
type parser struct {
	dec   *wire.Scanner
	found []Finding
	count int
}

// parse reads a JSON text (RFC 8259). The error is a sentence; findings tell of
// keys given twice, of which the last counts.
func parse(text []byte) (*node, []Finding, error) {
	text = bytes.TrimPrefix(text, []byte("\uFEFF"))
	if len(bytes.TrimSpace(text)) == 0 {
		return nil, nil, errors.New("The text is empty; open a job file or paste its whole text.")
	}
	if len(text) > MaxBytes {
		return nil, nil, fmt.Errorf("The text is longer than %d kB, far more than a job; open a job file.", MaxBytes>>10)
	}
	if err := depth(text); err != nil {
		return nil, nil, err
	}
	p := &parser{dec: wire.NewScanner(text)}
	root, err := p.value("")
	if err == nil {
		err = p.dec.End()
	}
	var syntax *wire.SyntaxError
	if errors.As(err, &syntax) {
		return nil, nil, syntaxSentence(text, syntax)
	}
	if err != nil {
		return nil, nil, err
	}
	if !utf8.Valid(text) {
		p.found = append(p.found, Notef("", "Some characters of the text were not valid (UTF-8) and show as %q.", utf8.RuneError))
	}
	return root, p.found, nil
}

// depth refuses deep nesting before anything recursive runs.
func depth(text []byte) error {
	level, inText, escaped := 0, false, false
	for _, b := range text {
		switch {
		case escaped:
			escaped = false
		case inText:
			escaped = b == '\\'
			inText = b != '"'
		case b == '"':
			inText = true
		case b == '[' || b == '{':
			if level++; level > maxDepth {
				return fmt.Errorf("The text is nested more than %d levels deep; it is not a job file.", maxDepth)
			}
		case b == ']' || b == '}':
			level--
		}
	}
	return nil
}

// syntaxSentence says where the text stops being JSON.
func syntaxSentence(text []byte, syntax *wire.SyntaxError) error {
	if syntax.End {
		return errors.New("The text stops before the job ends; part of the file is missing. Copy or save it again.")
	}
	at := syntax.Offset
	line := 1 + bytes.Count(text[:at], []byte("\n"))
	column := at - bytes.LastIndexByte(text[:at], '\n')
	for _, word := range []string{"NaN", "Infinity", "-Infinity", "undefined"} {
		for back := 0; back <= 2 && back <= at; back++ {
			if bytes.HasPrefix(text[at-back:], []byte(word)) {
				return fmt.Errorf("The text is not a job file: at line %d stands %s, which is not a number. Put a number there.", line, word)
			}
		}
	}
	return fmt.Errorf("The text is not a job file: it cannot be read from line %d, column %d on.", line, column)
}

func (p *parser) value(at string) (*node, error) {
	if p.count++; p.count > maxNodes {
		return nil, fmt.Errorf("The text holds more than %d values, far more than a job; open a job file.", maxNodes)
	}
	token, err := p.dec.Token()
	if err != nil {
		return nil, err
	}
	switch t := token.(type) {
	case nil:
		return &node{kind: isNull}, nil
	case bool:
		return &node{kind: isBool, truth: t}, nil
	case string:
		return &node{kind: isText, text: t}, nil
	case wire.Number:
		v, err := strconv.ParseFloat(string(t), 64)
		if err != nil || math.IsInf(v, 0) {
			return nil, fmt.Errorf("%s (%s) is %s, too large to be a number here; give a smaller one.", describe(at), cut(at), cut(string(t)))
		}
		if v == 0 {
			v = 0 // also -0, so that equal jobs have equal text
		}
		return &node{kind: isNumber, number: v}, nil
	case wire.Delim:
		if t == '[' {
			return p.listAt(at)
		}
		return p.objectAt(at)
	}
	return nil, errors.New("The text is not a job file.")
}

func (p *parser) listAt(at string) (*node, error) {
	n := &node{kind: isList}
	for i := 0; p.dec.More(); i++ {
		v, err := p.value(at + "/" + strconv.Itoa(i))
		if err != nil {
			return nil, err
		}
		n.list = append(n.list, v)
	}
	_, err := p.dec.Token()
	return n, err
}

func (p *parser) objectAt(at string) (*node, error) {
	n := &node{kind: isObject}
	for p.dec.More() {
		token, err := p.dec.Token()
		if err != nil {
			return nil, err
		}
		key, _ := token.(string)
		where := at + "/" + escapeKey(key)
		v, err := p.value(where)
		if err != nil {
			return nil, err
		}
		if n.get(key) != nil && len(p.found) < maxFindings {
			p.found = append(p.found, Notef(cut(where), "%s stands twice in the text; the last one counts.", describe(where)))
		}
		n.set(key, v)
		if len(n.members) > maxKeys {
			return nil, fmt.Errorf("%s (%s) holds more than %d values, far more than a job has; open a job file.", describe(at), cut(at), maxKeys)
		}
	}
	_, err := p.dec.Token()
	return n, err
}

func cut(s string) string {
	if len(s) > 200 {
		return strings.ToValidUTF8(s[:200], "") + "..."
	}
	return s
}

// leaves lists the JSON pointers of all single values under the node, in the
// order of the text.
func (n *node) leaves(at string, visit func(at string, leaf *node)) {
	switch n.kind {
	case isObject:
		for _, m := range n.members {
			m.value.leaves(at+"/"+escapeKey(m.key), visit)
		}
	case isList:
		for i, v := range n.list {
			v.leaves(at+"/"+strconv.Itoa(i), visit)
		}
	case isNull:
	default:
		visit(at, n)
	}
}
