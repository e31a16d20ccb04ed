package wire

import (
	"fmt"
	"math"
	"reflect"
	"sort"
	"strconv"
	"sync"
	"unicode/utf8"
)

// known remembers the fields of struct types.
var known sync.Map // reflect.Type to fieldList

// Encode writes a value as JSON on one line, keys in the order of the fields,
// those of maps sorted. A number that JSON does not have is an error.
func Encode(v any) ([]byte, error) {
	return appendValue(nil, reflect.ValueOf(v))
}

func appendValue(b []byte, v reflect.Value) ([]byte, error) {
	if !v.IsValid() {
		return append(b, "null"...), nil
	}
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		return appendValue(b, v.Elem())
	case reflect.Struct:
		return appendStruct(b, v)
	case reflect.Map:
		return appendMap(b, v)
	case reflect.Slice, reflect.Array:
		if v.Type() == rawType && v.Len() > 0 {
			return append(b, v.Bytes()...), nil
		}
		if v.Kind() == reflect.Slice && v.IsNil() {
			return append(b, "null"...), nil
		}
		b = append(b, '[')
		var err error
		for i := range v.Len() {
			if i > 0 {
				b = append(b, ',')
			}
			if b, err = appendValue(b, v.Index(i)); err != nil {
				return b, err
			}
		}
		return append(b, ']'), nil
	case reflect.String:
		return AppendString(b, v.String()), nil
	case reflect.Bool:
		return strconv.AppendBool(b, v.Bool()), nil
	}
	switch {
	case v.CanInt():
		return strconv.AppendInt(b, v.Int(), 10), nil
	case v.CanUint():
		return strconv.AppendUint(b, v.Uint(), 10), nil
	case v.CanFloat():
		return appendFloat(b, v.Float())
	}
	panic("wire: no way to write " + v.Type().String())
}

func appendStruct(b []byte, v reflect.Value) ([]byte, error) {
	b = append(b, '{')
	first := true
	for _, f := range fieldsOf(v.Type()) {
		x, err := v.FieldByIndexErr(f.index)
		if err != nil || f.omitEmpty && empty(x) { // a nil embedded struct has no fields
			continue
		}
		if !first {
			b = append(b, ',')
		}
		first = false
		b = append(AppendString(b, f.key), ':')
		if b, err = appendValue(b, x); err != nil {
			return b, err
		}
	}
	return append(b, '}'), nil
}

func appendMap(b []byte, v reflect.Value) ([]byte, error) {
	if v.IsNil() {
		return append(b, "null"...), nil
	}
	keys := v.MapKeys()
	sort.Slice(keys, func(i, j int) bool { return keys[i].String() < keys[j].String() })
	b = append(b, '{')
	var err error
	for i, k := range keys {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(AppendString(b, k.String()), ':')
		if b, err = appendValue(b, v.MapIndex(k)); err != nil {
			return b, err
		}
	}
	return append(b, '}'), nil
}

// empty is what omitempty leaves out.
func empty(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice, reflect.Map, reflect.String, reflect.Array:
		return v.Len() == 0
	case reflect.Struct:
		return false
	}
	return v.IsZero()
}

// appendFloat writes the shortest text that reads back the same, as ECMAScript
// does: plain digits from 1e-6 to 1e21, else an exponent.
func appendFloat(b []byte, f float64) ([]byte, error) {
	if math.IsNaN(f) || math.IsInf(f, 0) {
		return b, fmt.Errorf("a value is %g, which is not a number that can be written", f)
	}
	format := byte('f')
	if a := math.Abs(f); a != 0 && (a < 1e-6 || a >= 1e21) {
		format = 'e'
	}
	b = strconv.AppendFloat(b, f, format, -1, 64)
	if n := len(b); format == 'e' && n >= 4 && b[n-4] == 'e' && b[n-3] == '-' && b[n-2] == '0' {
		// e-09 is written e-9.
		b[n-2] = b[n-1]
		b = b[:n-1]
	}
	return b, nil
}

// AppendString writes a quoted text. What is not UTF-8 becomes U+FFFD, and the
// two line separators that old JavaScript chokes on are escaped.
func AppendString(b []byte, s string) []byte {
	const hex = "0123456789abcdef"
	b = append(b, '"')
	for i := 0; i < len(s); {
		c := s[i]
		if c < utf8.RuneSelf {
			switch {
			case c == '"' || c == '\\':
				b = append(b, '\\', c)
			case c == '\n':
				b = append(b, '\\', 'n')
			case c == '\r':
				b = append(b, '\\', 'r')
			case c == '\t':
				b = append(b, '\\', 't')
			case c == '\b':
				b = append(b, '\\', 'b')
			case c == '\f':
				b = append(b, '\\', 'f')
			case c < ' ':
				b = append(b, '\\', 'u', '0', '0', hex[c>>4], hex[c&15])
			default:
				b = append(b, c)
			}
			i++
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == utf8.RuneError && n == 1:
			b = append(b, `\ufffd`...)
		case r == '\u2028' || r == '\u2029':
			b = append(b, '\\', 'u', '2', '0', '2', hex[r&15])
		default:
			b = append(b, s[i:i+n]...)
		}
		i += n
	}
	return append(b, '"')
}

// Indent spreads JSON text over lines, two spaces a level, as encoding/json
// does with that indent.
func Indent(text []byte) []byte {
	var out []byte
	level, quoted, escaped := 0, false, false
	line := func() {
		out = append(out, '\n')
		for range level {
			out = append(out, ' ', ' ')
		}
	}
	for i, c := range text {
		switch {
		case quoted:
			out = append(out, c)
			quoted = escaped || c != '"'
			escaped = !escaped && c == '\\'
		case c == '"':
			out = append(out, c)
			quoted = true
		case c == '[' || c == '{':
			out = append(out, c)
			if i+1 < len(text) && text[i+1] != c+2 {
				level++
				line()
			}
		case c == ']' || c == '}':
			if text[i-1] != c-2 {
				level--
				line()
			}
			out = append(out, c)
		case c == ',':
			out = append(out, c)
			line()
		case c == ':':
			out = append(out, c, ' ')
		default:
			out = append(out, c)
		}
	}
	return out
}
