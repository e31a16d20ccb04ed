package pack

import (
	"bytes"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"

	"bootfloor/internal/tools/leb128"
)

// unpack is the page's own unpacker, run by node.
func unpack(t *testing.T, packed []byte) ([]byte, error) {
	t.Helper()
	if _, err := exec.LookPath("node"); err != nil {
		t.Skip("node is not installed, which runs the page's side")
	}
	script, err := os.ReadFile("../../../www/worker/unpack.js")
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("node", "-e", `
		const fs = require('node:fs');
		const { unpackEngine } = new Function(process.argv[1] + '; return { unpackEngine }')();
		const bytes = fs.readFileSync(0);
		unpackEngine(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length)).then(
			(program) => process.stdout.write(program),
			(error) => { console.error(error.message); process.exitCode = 1; });
	`, string(script))
	cmd.Stdin = bytes.NewReader(packed)
	return cmd.Output()
}

// program makes a module whose code section has these bodies, each without its
// size, between two sections that are not code.
func program(bodies ...[]byte) []byte {
	code := leb128.AppendUnsigned(nil, uint64(len(bodies)))
	for _, body := range bodies {
		code = leb128.AppendUnsigned(code, uint64(len(body)))
		code = append(code, body...)
	}
	out := []byte("\x00asm\x01\x00\x00\x00\x00\x03\x01n\x09\x0a")
	out = leb128.AppendUnsigned(out, uint64(len(code)))
	out = append(out, code...)
	return append(out, 0, 4, 1, 'm', 7, 8)
}

// Every kind of operator that Go writes, and what it never writes.
var bodies = map[string][]byte{
	"empty": {0, 0x0b},
	"locals, numbers and floats": {2, 3, 0x7f, 0x81, 1, 0x7e, 0x20, 0x81, 1, 0x41, 0x7f, 0x41, 0xc0, 0, 0x41, 0x80, 0x80, 0x08,
		0x42, 5, 0x42, 0xff, 0xff, 0xff, 0, 0x43, 1, 2, 3, 4, 0x44, 1, 2, 3, 4, 5, 6, 7, 0xe8, 0x0b},
	"loads and stores": {0, 0x20, 1, 0x29, 3, 0x88, 1, 0x20, 2, 0x29, 3, 8, 0x37, 3, 0x90, 0x80, 1, 0x2c, 0, 5, 0x28, 2, 0x80, 4, 0x3e, 2, 0, 0x0b},
	"frame addresses":  {0, 0x20, 1, 0xad, 0x42, 0x98, 1, 0x7c, 0x0b},
	"ways out, loops and resume points": {0, 0x02, 0x40, 0x03, 0x40, 0x02, 0x40, 0x02, 0x40, 0x02, 0x40, 0x20, 0, 0x0e, 5, 0, 0, 1, 1, 1, 2, 0x0b,
		0x42, 0x82, 0x80, 0x80, 0x80, 2, 0x10, 0x81, 0, 0x0d, 2, 0x0b,
		0x04, 0x40, 0x41, 2, 0x21, 0, 0x0c, 3, 0x0b, 0x41, 5, 0x21, 0, 0x0c, 0, 0x0b, 0x00, 0x0b, 0x0b, 0x41, 1, 0x0b},
	"memory":                              {0, 0x3f, 0, 0x40, 0, 0xfc, 6, 0xfc, 10, 0, 0, 0xfc, 11, 0, 0x11, 0x85, 1, 0, 0x0b},
	"a table in no order":                 {0, 0x02, 0x40, 0x02, 0x40, 0x20, 0, 0x0e, 2, 1, 0, 1, 0x0b, 0x0b, 0x0b},
	"a number longer than it need be":     {0, 0x02, 0x40, 0x0d, 0x80, 0, 0x0b, 0x0b},
	"another alignment":                   {0, 0x20, 1, 0x29, 0, 8, 0x0b},
	"an operator that Go does not write":  {0, 0xd2, 3, 0x0b},
	"an operator that only this one uses": {0, 0xe0, 0x0b},
	"more after its end":                  {0, 0x0b, 0x0b},
}

func TestComesBackByteForByte(t *testing.T) {
	var all [][]byte
	whole := 0
	for name, body := range bodies {
		var s streams
		s.function(0, body)
		if s[operators][0] == ownWhole {
			whole++
		}
		t.Run(name, func(t *testing.T) { comesBack(t, program(body)) })
		all = append(all, body)
	}
	// The ones from "a table in no order" on.
	if whole != 6 {
		t.Errorf("%d of the bodies are stored whole, want 6", whole)
	}
	// As many as make pairs worth a byte.
	for len(all) < 4000 {
		all = append(all, all...)
	}
	t.Run("all together", func(t *testing.T) { comesBack(t, program(all...)) })
	random := rand.New(rand.NewPCG(1, 2))
	for i, body := range all {
		all[i] = bytes.Clone(body)
		for range random.IntN(3) {
			all[i][random.IntN(len(body))] = byte(random.IntN(256))
		}
	}
	t.Run("all together, damaged", func(t *testing.T) { comesBack(t, program(all...)) })
	t.Run("no functions", func(t *testing.T) { comesBack(t, program()[:13]) })
}

func comesBack(t *testing.T, wasm []byte) {
	t.Helper()
	packed, err := Program(wasm)
	if err != nil {
		t.Fatal(err)
	}
	got, err := unpack(t, packed)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, wasm) {
		t.Errorf("got\n% x\nwant\n% x", got[:min(len(got), 200)], wasm[:min(len(wasm), 200)])
	}
}

func TestDamagedFilesAreRefused(t *testing.T) {
	packed, err := Program(program(bodies["memory"], bodies["empty"]))
	if err != nil {
		t.Fatal(err)
	}
	changed := bytes.Clone(packed)
	changed[len(changed)/2] ^= 0x10
	for name, bad := range map[string][]byte{"cut short": packed[:len(packed)-9], "changed": changed, "not gzip": []byte("<!doctype html>")} {
		if got, err := unpack(t, bad); err == nil {
			t.Errorf("%s: unpacked to %d bytes", name, len(got))
		}
	}
}

func TestOnlyProgramsArePacked(t *testing.T) {
	good := program(bodies["empty"])
	for name, bad := range map[string][]byte{"text": []byte("<!doctype html>"), "cut short": good[:len(good)-8], "nothing": nil} {
		if _, err := Program(bad); err == nil {
			t.Errorf("%s was packed", name)
		}
	}
}

func FuzzPacking(f *testing.F) {
	for _, body := range bodies {
		f.Add(body)
	}
	f.Fuzz(func(t *testing.T, body []byte) {
		if _, err := Program(program(body)); err != nil {
			t.Errorf("% x: %v", body, err)
		}
		Program(body)
	})
}
