// Command jobtypes writes the job document as types for the page, so that the
// page and the engine cannot drift apart unseen.
package main

import (
	"fmt"
	"os"
	"reflect"
	"strings"

	"bootfloor/internal/job"
)

func main() {
	fmt.Fprint(os.Stdout, types(reflect.TypeFor[job.Job]()))
}

// types returns the interfaces of a struct and of all it holds.
func types(root reflect.Type) string {
	var b strings.Builder
	b.WriteString("// Made by `make types` from internal/job; meanings and units stand there.\n")
	seen := map[reflect.Type]bool{root: true}
	queue := []reflect.Type{root}
	for len(queue) > 0 {
		t := queue[0]
		queue = queue[1:]
		fmt.Fprintf(&b, "\nexport interface %s {\n", t.Name())
		for i := range t.NumField() {
			f := t.Field(i)
			name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
			if name == "-" || !f.IsExported() {
				continue
			}
			if name == "" {
				name = f.Name
			}
			optional := ""
			if strings.Contains(options, "omitempty") || strings.Contains(options, "omitzero") {
				optional = "?"
			}
			fmt.Fprintf(&b, "  %s%s: %s;\n", name, optional, typeOf(f.Type))
			if s := structOf(f.Type); s != nil && !seen[s] {
				seen[s] = true
				queue = append(queue, s)
			}
		}
		b.WriteString("}\n")
	}
	return b.String()
}

func typeOf(t reflect.Type) string {
	switch t.Kind() {
	case reflect.String:
		return "string"
	case reflect.Bool:
		return "boolean"
	case reflect.Pointer:
		return typeOf(t.Elem())
	case reflect.Slice, reflect.Array:
		return typeOf(t.Elem()) + "[]"
	case reflect.Struct:
		return t.Name()
	}
	if t.Kind() >= reflect.Int && t.Kind() <= reflect.Float64 {
		return "number"
	}
	panic("jobtypes: no type for " + t.String())
}

func structOf(t reflect.Type) reflect.Type {
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Array:
		return structOf(t.Elem())
	case reflect.Struct:
		return t
	}
	return nil
}
