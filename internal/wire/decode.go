package wire

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
)

// Decode reads one JSON text into what into points to. Unknown keys are passed
// over; null leaves a value as it is, save a pointer, list, map or any, which
// it empties. An error is a SyntaxError or names the value that is of the
// wrong kind.
func Decode(text []byte, into any) error {
	v := reflect.ValueOf(into)
	if v.Kind() != reflect.Pointer || v.IsNil() {
		panic("wire: Decode wants a pointer")
	}
	d := decoder{Scanner: NewScanner(text)}
	if err := d.value("", v.Elem()); err != nil {
		return err
	}
	return d.End()
}

type decoder struct{ *Scanner }

func (d *decoder) wrong(at, want string) error {
	if at == "" {
		at = "the whole"
	}
	return fmt.Errorf("%s must be %s", at, want)
}

var rawType = reflect.TypeFor[Raw]()

func (d *decoder) value(at string, v reflect.Value) error {
	if v.Type() == rawType {
		d.space()
		from := d.Offset()
		if err := d.skip(); err != nil {
			return err
		}
		v.SetBytes(append([]byte(nil), d.text[from:d.Offset()]...))
		return nil
	}
	t, err := d.Token()
	if err != nil {
		return err
	}
	return d.token(at, t, v)
}

// token puts a value whose first token has been read into v.
func (d *decoder) token(at string, t any, v reflect.Value) error {
	if t == nil {
		switch v.Kind() {
		case reflect.Pointer, reflect.Slice, reflect.Map, reflect.Interface:
			v.SetZero()
		}
		return nil
	}
	switch v.Kind() {
	case reflect.Pointer:
		if v.IsNil() {
			v.Set(reflect.New(v.Type().Elem()))
		}
		return d.token(at, t, v.Elem())
	case reflect.Struct:
		return d.object(at, t, v)
	case reflect.Map:
		return d.table(at, t, v)
	case reflect.Slice, reflect.Array:
		return d.list(at, t, v)
	case reflect.Interface:
		x, err := d.any(t)
		if err == nil && x != nil {
			v.Set(reflect.ValueOf(x))
		}
		return err
	case reflect.String:
		s, ok := t.(string)
		if !ok {
			return d.wrong(at, "text")
		}
		v.SetString(s)
	case reflect.Bool:
		b, ok := t.(bool)
		if !ok {
			return d.wrong(at, "true or false")
		}
		v.SetBool(b)
	default:
		return d.number(at, t, v)
	}
	return nil
}

func (d *decoder) number(at string, t any, v reflect.Value) error {
	n, ok := t.(Number)
	if !ok {
		return d.wrong(at, "a number")
	}
	f, err := strconv.ParseFloat(string(n), 64)
	if err != nil {
		return d.wrong(at, "a smaller number")
	}
	switch {
	case v.CanFloat():
		v.SetFloat(f)
	case v.CanInt():
		if f != math.Trunc(f) || math.Abs(f) > 1<<53 || v.OverflowInt(int64(f)) {
			return d.wrong(at, "a whole number")
		}
		v.SetInt(int64(f))
	default:
		panic("wire: no way to read " + v.Type().String())
	}
	return nil
}

func (d *decoder) object(at string, t any, v reflect.Value) error {
	if t != Delim('{') {
		return d.wrong(at, "a group of values")
	}
	fields := fieldsOf(v.Type())
	for d.More() {
		t, err := d.Token()
		if err != nil {
			return err
		}
		key := t.(string)
		if f := fields.find(key); f != nil {
			err = d.value(at+"/"+key, reach(v, f.index))
		} else {
			err = d.skip()
		}
		if err != nil {
			return err
		}
	}
	_, err := d.Token()
	return err
}

// reach returns a field, making the embedded structs on the way to it.
func reach(v reflect.Value, index []int) reflect.Value {
	for i, k := range index {
		if i > 0 && v.Kind() == reflect.Pointer {
			if v.IsNil() {
				v.Set(reflect.New(v.Type().Elem()))
			}
			v = v.Elem()
		}
		v = v.Field(k)
	}
	return v
}

func (d *decoder) table(at string, t any, v reflect.Value) error {
	if t != Delim('{') {
		return d.wrong(at, "a group of values")
	}
	m := reflect.MakeMap(v.Type())
	for d.More() {
		t, err := d.Token()
		if err != nil {
			return err
		}
		e := reflect.New(v.Type().Elem()).Elem()
		if err := d.value(at+"/"+t.(string), e); err != nil {
			return err
		}
		m.SetMapIndex(reflect.ValueOf(t).Convert(v.Type().Key()), e)
	}
	v.Set(m)
	_, err := d.Token()
	return err
}

func (d *decoder) list(at string, t any, v reflect.Value) error {
	if t != Delim('[') {
		return d.wrong(at, "a list")
	}
	i := 0
	if v.Kind() == reflect.Slice {
		v.Set(reflect.MakeSlice(v.Type(), 0, 4))
	}
	for ; d.More(); i++ {
		if v.Kind() == reflect.Slice {
			v.Grow(1)
			v.SetLen(i + 1)
			v.Index(i).SetZero()
		} else if i >= v.Len() {
			return d.wrong(at, fmt.Sprintf("a list of %d", v.Len()))
		}
		if err := d.value(at+"/"+strconv.Itoa(i), v.Index(i)); err != nil {
			return err
		}
	}
	_, err := d.Token()
	return err
}

// any reads a value as nil, bool, float64, string, []any or map[string]any.
func (d *decoder) any(t any) (any, error) {
	switch t := t.(type) {
	case Number:
		return strconv.ParseFloat(string(t), 64)
	case Delim:
		if t == '[' {
			list := []any{}
			err := d.list("", t, reflect.ValueOf(&list).Elem())
			return list, err
		}
		m := map[string]any{}
		err := d.table("", t, reflect.ValueOf(&m).Elem())
		return m, err
	}
	return t, nil
}

// skip passes over one value.
func (d *decoder) skip() error {
	for depth := 0; ; {
		t, err := d.Token()
		if err != nil {
			return err
		}
		switch t {
		case Delim('['), Delim('{'):
			depth++
		case Delim(']'), Delim('}'):
			depth--
		}
		// Inside an object a string may be a key: only the depth counts.
		if depth == 0 {
			return nil
		}
	}
}

// field is one field of a struct that stands in the text.
type field struct {
	key       string
	index     []int
	omitEmpty bool
}

type fieldList []field

func (l fieldList) find(key string) *field {
	for i := range l {
		if l[i].key == key {
			return &l[i]
		}
	}
	return nil
}

// embedded returns the struct that an embedded field is, or points to.
func embedded(t reflect.Type) reflect.Type {
	if t.Kind() == reflect.Pointer {
		return t.Elem()
	}
	return t
}

// fieldsOf lists the fields of a struct, those of embedded structs among them.
func fieldsOf(t reflect.Type) fieldList {
	if l, ok := known.Load(t); ok {
		return l.(fieldList)
	}
	var out fieldList
	for i := range t.NumField() {
		f := t.Field(i)
		key, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case key == "-" || (!f.IsExported() && !f.Anonymous):
		case f.Anonymous && key == "" && embedded(f.Type).Kind() == reflect.Struct:
			for _, e := range fieldsOf(embedded(f.Type)) {
				e.index = append([]int{i}, e.index...)
				out = append(out, e)
			}
		default:
			if key == "" {
				key = f.Name
			}
			out = append(out, field{key, []int{i}, options == "omitempty"})
		}
	}
	known.Store(t, out)
	return out
}
