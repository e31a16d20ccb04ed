package job

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"testing"
)

// hostile adds the files of a folder to the seeds of a fuzz target.
func hostile(f *testing.F, add func([]byte)) {
	files, err := filepath.Glob(filepath.Join(data, "hostile", "*"))
	if err != nil {
		f.Fatal(err)
	}
	for _, path := range append(files, filepath.Join(data, "demo.json"), filepath.Join(data, "version0.json")) {
		text, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		add(text)
	}
}

// sound checks what must hold of anything that was read, whatever it came from.
func sound(t *testing.T, j Job, found []Finding, err error) {
	if err != nil {
		if s := err.Error(); s == "" || s[len(s)-1] != '.' {
			t.Fatalf("not a sentence: %q", s)
		}
		if !reflect.DeepEqual(j, Job{}) {
			t.Fatal("a job came back with an error")
		}
		return
	}
	all := append(found, Check(j)...)
	for _, f := range all {
		if f.Say == "" || (f.At != "" && f.At[0] != '/') {
			t.Fatalf("bad finding %+v", f)
		}
	}
	if len(all) > 2*maxFindings+2 {
		t.Fatalf("%d findings", len(all))
	}
	text, err := Encode(j)
	if err != nil {
		t.Fatalf("what was read cannot be written: %v", err)
	}
	if len(text) > MaxBytes {
		return // indenting made it longer than a file may be
	}
	again, _, err := Decode(text)
	if err != nil || !reflect.DeepEqual(again, j) {
		t.Fatalf("what was written cannot be read: %v", err)
	}
}

func FuzzDecode(f *testing.F) {
	hostile(f, func(b []byte) { f.Add(b) })
	for _, key := range BodyKeys() {
		text, err := Encode(New(key))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		j, found, err := Decode(text)
		sound(t, j, found, err)
	})
}

func FuzzUnpack(f *testing.F) {
	hostile(f, func(b []byte) { f.Add(b) })
	for _, j := range []Job{Demo(), fullJob(), New("saloon")} {
		packed, err := Pack(j)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(packed)
	}
	f.Fuzz(func(t *testing.T, packed []byte) {
		j, found, err := Unpack(packed)
		sound(t, j, found, err)
	})
}

// FuzzUnpackText reaches behind the checksum: the text is packed properly and
// only its meaning is hostile.
func FuzzUnpackText(f *testing.F) {
	hostile(f, func(b []byte) { f.Add(b) })
	text, err := packText(Demo())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Add(bytes.Replace(text, []byte(`"assumed":["`), []byte(`"assumed":["99999999999999999999 `), 1))
	f.Fuzz(func(t *testing.T, text []byte) {
		packed, err := compress(text)
		if err != nil {
			t.Fatal(err)
		}
		j, found, err := Unpack(packed)
		sound(t, j, found, err)
	})
}
