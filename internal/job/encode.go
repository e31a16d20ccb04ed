package job

import (
	"fmt"
	"reflect"
	"slices"
	"sort"
	"strings"

	"bootfloor/internal/wire"
)

// Encode writes the job as the text of a file: the format and version of this
// package, keys in the order of the types, two spaces a level, assumed values
// sorted, a newline at the end. Equal jobs give equal bytes. The error, a
// sentence, names a value that is not a finite number.
func Encode(j Job) ([]byte, error) {
	compact, err := encodeCompact(j)
	if err != nil {
		return nil, err
	}
	return append(wire.Indent(compact), '\n'), nil
}

// encodeCompact is Encode on one line.
func encodeCompact(j Job) ([]byte, error) {
	if at := firstNotFinite(reflect.ValueOf(j), ""); at != "" {
		return nil, fmt.Errorf("%s (%s) is not a number; give one before saving.", describe(at), at)
	}
	return wire.Encode(Canonical(j))
}

// Canonical returns a copy in the one form that Encode writes and Decode
// reads: lists that must stand are not nil, optional empty lists are, texts
// are valid UTF-8, assumed pointers are sorted and named once, -0 is 0.
func Canonical(j Job) Job {
	j.Format, j.Version = Format, Version
	out := deepCopy(reflect.ValueOf(j)).Interface().(Job)
	if len(out.Assumed) > 0 {
		sort.Strings(out.Assumed)
		out.Assumed = slices.Compact(out.Assumed)
	}
	return out
}

// deepCopy copies a value of the document. Which lists may be absent follows
// from the omitempty of their fields.
func deepCopy(v reflect.Value) reflect.Value {
	out := reflect.New(v.Type()).Elem()
	switch v.Kind() {
	case reflect.Struct:
		for i := 0; i < v.NumField(); i++ {
			out.Field(i).Set(deepCopy(v.Field(i)))
			if f := out.Field(i); f.Kind() == reflect.Slice {
				if _, optional := tag(v.Type().Field(i)); optional && f.Len() == 0 {
					f.SetZero()
				}
			}
		}
	case reflect.Slice:
		out.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
		for i := 0; i < v.Len(); i++ {
			out.Index(i).Set(deepCopy(v.Index(i)))
		}
	case reflect.Pointer:
		if !v.IsNil() {
			out.Set(reflect.New(v.Type().Elem()))
			out.Elem().Set(deepCopy(v.Elem()))
		}
	case reflect.String:
		out.SetString(strings.ToValidUTF8(v.String(), "\uFFFD"))
	case reflect.Float64:
		out.SetFloat(v.Float() + 0) // -0 + 0 is 0
	default:
		out.Set(v)
	}
	return out
}

// tag returns the key of a field in the text and whether it may be absent.
func tag(f reflect.StructField) (key string, optional bool) {
	key, rest, _ := strings.Cut(f.Tag.Get("json"), ",")
	return key, rest == "omitempty"
}

// firstNotFinite returns the pointer of the first value that JSON cannot hold.
func firstNotFinite(v reflect.Value, at string) string {
	switch v.Kind() {
	case reflect.Struct:
		for i := 0; i < v.NumField(); i++ {
			key, _ := tag(v.Type().Field(i))
			if s := firstNotFinite(v.Field(i), at+"/"+key); s != "" {
				return s
			}
		}
	case reflect.Slice:
		for i := 0; i < v.Len(); i++ {
			if s := firstNotFinite(v.Index(i), fmt.Sprintf("%s/%d", at, i)); s != "" {
				return s
			}
		}
	case reflect.Pointer:
		if !v.IsNil() {
			return firstNotFinite(v.Elem(), at)
		}
	case reflect.Float64:
		if f := v.Float(); f-f != 0 {
			return at
		}
	}
	return ""
}

// Leaves lists, as sorted JSON pointers, every value of the job that can be
// assumed: all single values of its parts save names.
func Leaves(j Job) []string {
	text, err := encodeCompact(j)
	if err != nil {
		panic(err) // only presets and jobs that were read or checked come here
	}
	root, _, err := parse(text)
	if err != nil {
		panic(err)
	}
	var out []string
	for _, part := range []string{"air", "car", "subs", "doors", "aim", "tolerance"} {
		root.get(part).leaves("/"+part, func(at string, _ *node) {
			switch at[strings.LastIndexByte(at, '/')+1:] {
			case "id", "name", "typical":
			default:
				out = append(out, at)
			}
		})
	}
	sort.Strings(out)
	return out
}
