package wire

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

type inner struct {
	A float64 `json:"a"`
	B string  `json:"b,omitempty"`
}

type Deep struct {
	G float64 `json:"g"`
}

type sample struct {
	inner
	*Deep
	F    float64            `json:"f"`
	P    *float64           `json:"p,omitempty"`
	Q    *inner             `json:"q"`
	I    int                `json:"i,omitempty"`
	T    bool               `json:"t"`
	L    []inner            `json:"l"`
	S    []string           `json:"s,omitempty"`
	M    map[string]float64 `json:"m,omitempty"`
	X    any                `json:"x"`
	Span [2]int             `json:"span"`
	Skip int                `json:"-"`
	Bare string
}

// standard writes with encoding/json, without HTML escapes.
func standard(t *testing.T, v any) string {
	t.Helper()
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		t.Fatal(err)
	}
	return strings.TrimSuffix(b.String(), "\n")
}

func random(rng *rand.Rand) sample {
	number := func() float64 {
		switch rng.IntN(5) {
		case 0:
			return float64(rng.IntN(2000) - 1000)
		case 1:
			return math.Exp(rng.NormFloat64() * 30)
		case 2:
			return 0
		default:
			return rng.NormFloat64()
		}
	}
	text := func() string {
		alphabet := []rune("ab \"\\/<>&\n\t\x01é\u2028\U0001F697" + "\x7f")
		r := make([]rune, rng.IntN(8))
		for i := range r {
			r[i] = alphabet[rng.IntN(len(alphabet))]
		}
		return string(r)
	}
	s := sample{inner: inner{number(), text()}, F: number(), I: rng.IntN(3), T: rng.IntN(2) == 0, Bare: text(), Span: [2]int{1, -2}}
	if rng.IntN(2) == 0 {
		p := number()
		s.P, s.Q, s.Deep = &p, &inner{number(), text()}, &Deep{number()}
	}
	for range rng.IntN(3) {
		s.L = append(s.L, inner{number(), text()})
		s.S = append(s.S, text())
	}
	if rng.IntN(2) == 0 {
		s.M = map[string]float64{text(): number(), "z": number()}
		s.X = map[string]any{"k": []any{number(), text(), nil, true}}
	}
	return s
}

// What is written is what encoding/json writes, and both read it alike.
func TestAgreesWithTheStandardLibrary(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 3000 {
		v := random(rng)
		got, err := Encode(v)
		if err != nil {
			t.Fatal(err)
		}
		if want := standard(t, v); string(got) != want {
			t.Fatalf("wrote %s\nwant  %s", got, want)
		}
		var a, b sample
		if err := Decode(got, &a); err != nil {
			t.Fatalf("%v in %s", err, got)
		}
		if err := json.Unmarshal(got, &b); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(a, b) {
			t.Fatalf("read %+v\nwant %+v", a, b)
		}
		var indented bytes.Buffer
		if err := json.Indent(&indented, got, "", "  "); err != nil {
			t.Fatal(err)
		}
		if in := Indent(got); string(in) != indented.String() {
			t.Fatalf("indented %s\nwant %s", in, indented.String())
		}
	}
}

func TestRaw(t *testing.T) {
	var v struct {
		R Raw `json:"r"`
		N int `json:"n"`
	}
	if err := Decode([]byte(`{"r": {"a":[1, 2]} , "n": 3, "more": [{}]}`), &v); err != nil || string(v.R) != `{"a":[1, 2]}` || v.N != 3 {
		t.Errorf("%q %d %v", v.R, v.N, err)
	}
	if b, _ := Encode(v); string(b) != `{"r":{"a":[1, 2]},"n":3}` {
		t.Errorf("%s", b)
	}
}

func TestRefusals(t *testing.T) {
	for text, want := range map[string]string{
		`{"f":"x"}`:          "/f must be a number",
		`{"l":[{"a":true}]}`: "/l/0/a must be a number",
		`{"i":1.5}`:          "/i must be a whole number",
		`{"f":1e999}`:        "/f must be a smaller number",
		`{"l":{}}`:           "/l must be a list",
		`{"f":1`:             "the text stops too early",
		`{"f":1} x`:          "the text is not JSON from byte 9 on",
		`{"f":NaN}`:          "the text is not JSON from byte 6 on",
		`[`:                  "the whole must be a group of values",
	} {
		var s sample
		err := Decode([]byte(text), &s)
		if err == nil || err.Error() != want {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
	if _, err := Encode(math.NaN()); err == nil {
		t.Error("NaN was written")
	}
}

// A text is valid here exactly where encoding/json finds it valid.
func FuzzValid(f *testing.F) {
	for _, s := range []string{`{"a":[1,2.5e-3,"x\u00e9\ud83d\ude97",true,null]}`, `[1,]`, `{"a" 1}`, `01`, `-`, `"\ud800"`, "\"\x01\"", `[[[[]]]]`, ` 1 `, `{"a":1,}`} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		var a, b any
		errA := Decode(text, &a)
		errB := json.Unmarshal(text, &b)
		if errA == errDepth {
			return
		}
		if (errA == nil) != (errB == nil) {
			t.Fatalf("%q: %v here, %v in the standard library", text, errA, errB)
		}
		if errA == nil && !reflect.DeepEqual(a, b) {
			t.Fatalf("%q: %v here, %v in the standard library", text, a, b)
		}
	})
}
