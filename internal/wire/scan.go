package wire

import (
	"errors"
	"fmt"
	"strconv"
	"unicode/utf16"
	"unicode/utf8"
)

// Delim is one of [ ] { }.
type Delim byte

// Number is a number as written.
type Number string

// SyntaxError says where the text stops being JSON.
type SyntaxError struct {
	Offset int  // of the offending byte
	End    bool // the text stops too early
}

func (e *SyntaxError) Error() string {
	if e.End {
		return "the text stops too early"
	}
	return fmt.Sprintf("the text is not JSON from byte %d on", e.Offset+1)
}

// MaxDepth is the deepest nesting that is read.
const MaxDepth = 64

var errDepth = errors.New("the text is nested too deep")

// Scanner reads a text token by token: nil, bool, string, Number and Delim.
// Commas and colons are checked and passed over.
type Scanner struct {
	text  []byte
	at    int
	stack []byte // '[' or '{' for each open one
	// state of the innermost: what must come next.
	first bool // nothing has been read in it yet
	value bool // after a key, a value
	ended bool // the outermost value is complete
}

// NewScanner returns a scanner over a text.
func NewScanner(text []byte) *Scanner { return &Scanner{text: text} }

// Offset returns how far the scanner has read.
func (s *Scanner) Offset() int { return s.at }

func (s *Scanner) fail() error {
	return &SyntaxError{Offset: min(s.at, max(len(s.text)-1, 0)), End: s.at >= len(s.text)}
}

func (s *Scanner) space() {
	for s.at < len(s.text) {
		switch s.text[s.at] {
		case ' ', '\t', '\n', '\r':
			s.at++
		default:
			return
		}
	}
}

// More reports whether another element or key follows in the innermost list
// or object.
func (s *Scanner) More() bool {
	s.space()
	return s.at < len(s.text) && s.text[s.at] != ']' && s.text[s.at] != '}'
}

// End returns an error unless nothing but space is left.
func (s *Scanner) End() error {
	s.space()
	if !s.ended || s.at < len(s.text) {
		return s.fail()
	}
	return nil
}

// Token returns the next token.
func (s *Scanner) Token() (any, error) {
	s.space()
	if s.ended || s.at >= len(s.text) {
		return nil, s.fail()
	}
	c := s.text[s.at]
	if n := len(s.stack); n > 0 && !s.value {
		open := s.stack[n-1]
		if c == open+2 { // ']' is '[' + 2, '}' is '{' + 2
			s.at++
			s.stack = s.stack[:n-1]
			s.done()
			return Delim(c), nil
		}
		if !s.first {
			if c != ',' {
				return nil, s.fail()
			}
			s.at++
			s.space()
			if s.at >= len(s.text) {
				return nil, s.fail()
			}
			c = s.text[s.at]
		}
		if open == '{' {
			return s.key(c)
		}
	}
	return s.element(c)
}

// key reads an object's key and its colon.
func (s *Scanner) key(c byte) (any, error) {
	if c != '"' {
		return nil, s.fail()
	}
	k, err := s.str()
	if err != nil {
		return nil, err
	}
	s.space()
	if s.at >= len(s.text) || s.text[s.at] != ':' {
		return nil, s.fail()
	}
	s.at++
	s.value = true
	return k, nil
}

// done marks a value as complete.
func (s *Scanner) done() {
	s.first, s.value = false, false
	s.ended = len(s.stack) == 0
}

func (s *Scanner) element(c byte) (any, error) {
	switch c {
	case '[', '{':
		if len(s.stack) >= MaxDepth {
			return nil, errDepth
		}
		s.at++
		s.stack = append(s.stack, c)
		s.first, s.value = true, false
		return Delim(c), nil
	case '"':
		t, err := s.str()
		s.done()
		return t, err
	case 't':
		return s.word("true", true)
	case 'f':
		return s.word("false", false)
	case 'n':
		return s.word("null", nil)
	}
	return s.number()
}

func (s *Scanner) word(w string, v any) (any, error) {
	for i := range len(w) {
		if s.at >= len(s.text) || s.text[s.at] != w[i] {
			return nil, s.fail()
		}
		s.at++
	}
	s.done()
	return v, nil
}

// number reads -? (0 | [1-9][0-9]*) (. [0-9]+)? ([eE] [+-]? [0-9]+)?
func (s *Scanner) number() (any, error) {
	from := s.at
	digits := func() bool {
		k := s.at
		for s.at < len(s.text) && s.text[s.at] >= '0' && s.text[s.at] <= '9' {
			s.at++
		}
		return s.at > k
	}
	is := func(set string) bool {
		if s.at < len(s.text) {
			for i := range len(set) {
				if s.text[s.at] == set[i] {
					s.at++
					return true
				}
			}
		}
		return false
	}
	is("-")
	if !is("0") && !digits() {
		return nil, s.fail()
	}
	if is(".") && !digits() {
		return nil, s.fail()
	}
	if is("eE") {
		is("+-")
		if !digits() {
			return nil, s.fail()
		}
	}
	s.done()
	return Number(s.text[from:s.at]), nil
}

// str reads a string; bytes that are not UTF-8 become U+FFFD.
func (s *Scanner) str() (string, error) {
	s.at++
	from := s.at
	for s.at < len(s.text) {
		switch c := s.text[s.at]; {
		case c == '"':
			t := string(s.text[from:s.at])
			s.at++
			return t, nil
		case c == '\\' || c < ' ' || c >= utf8.RuneSelf:
			return s.slowStr(from)
		}
		s.at++
	}
	return "", s.fail()
}

func (s *Scanner) slowStr(from int) (string, error) {
	out := append([]byte(nil), s.text[from:s.at]...)
	for s.at < len(s.text) {
		c := s.text[s.at]
		switch {
		case c == '"':
			s.at++
			return string(out), nil
		case c < ' ':
			return "", s.fail()
		case c == '\\':
			s.at++
			r, err := s.escape()
			if err != nil {
				return "", err
			}
			out = utf8.AppendRune(out, r)
		default:
			r, n := utf8.DecodeRune(s.text[s.at:])
			out = utf8.AppendRune(out, r)
			s.at += n
		}
	}
	return "", s.fail()
}

// escape reads what follows a backslash.
func (s *Scanner) escape() (rune, error) {
	if s.at >= len(s.text) {
		return 0, s.fail()
	}
	c := s.text[s.at]
	switch c {
	case '"', '\\', '/':
		s.at++
		return rune(c), nil
	case 'b', 'f', 'n', 'r', 't':
		s.at++
		return map[byte]rune{'b': '\b', 'f': '\f', 'n': '\n', 'r': '\r', 't': '\t'}[c], nil
	case 'u':
		s.at++
		r, ok := s.hex4()
		if !ok {
			return 0, s.fail()
		}
		if utf16.IsSurrogate(r) {
			// The other half may follow; a lone half is U+FFFD.
			if s.at+1 < len(s.text) && s.text[s.at] == '\\' && s.text[s.at+1] == 'u' {
				back := s.at
				s.at += 2
				if low, ok := s.hex4(); ok {
					if both := utf16.DecodeRune(r, low); both != utf8.RuneError {
						return both, nil
					}
				}
				s.at = back
			}
			return utf8.RuneError, nil
		}
		return r, nil
	}
	return 0, s.fail()
}

func (s *Scanner) hex4() (rune, bool) {
	if s.at+4 > len(s.text) {
		s.at = len(s.text)
		return 0, false
	}
	for _, c := range s.text[s.at : s.at+4] {
		if !(c >= '0' && c <= '9' || c >= 'a' && c <= 'f' || c >= 'A' && c <= 'F') {
			return 0, false
		}
	}
	v, err := strconv.ParseUint(string(s.text[s.at:s.at+4]), 16, 32)
	s.at += 4
	return rune(v), err == nil
}
