package main

import (
	"bytes"
	"encoding/binary"
	"testing"
)

// A table of functions as the linker lays it out, with two functions whose
// stack tables must stay and whose file and line tables must go.
func TestDropLines(t *testing.T) {
	word := binary.LittleEndian.AppendUint64
	half := binary.LittleEndian.AppendUint32
	const header = 72
	cu, files := []byte{9, 9, 9, 9}, []byte("a.go\x00b.go\x00\x00\x00")
	// One byte so that offset 0 means none, then two stack tables and two of lines.
	tables := []byte{0, 2, 4, 0, 0x82, 0x01, 3, 2, 5, 0, 7, 7, 0, 8, 8, 0}
	cutab := header
	filetab := cutab + len(cu)
	pctab := filetab + len(files)
	functab := pctab + len(tables)
	table := []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8}
	for _, v := range []int{2, 1, 0, header, cutab, filetab, pctab, functab} {
		table = word(table, uint64(v))
	}
	table = append(append(append(table, cu...), files...), tables...)
	const index = 2*8 + 4
	fn := func(pcsp, pcfile, pcln uint32) []byte {
		var b []byte
		for _, v := range []uint32{0, 0, 0, 0, pcsp, pcfile, pcln, 0, 0, 0, 0} {
			b = half(b, v)
		}
		return b
	}
	for _, v := range []uint32{0, index, 16, index + 44, 32} {
		table = half(table, v)
	}
	table = append(append(table, fn(1, 10, 13)...), fn(4, 13, 10)...)
	memory := append([]byte("before"), table...)

	if err := dropLines(memory); err != nil {
		t.Fatal(err)
	}
	got := memory[len("before"):]
	if want := []byte{0, 2, 4, 0, 0x82, 0x01, 3, 2, 5, 0, 0, 0, 0, 0, 0, 0}; !bytes.Equal(got[pctab:functab], want) {
		t.Errorf("tables %v, want %v", got[pctab:functab], want)
	}
	if !bytes.Equal(got[cutab:pctab], make([]byte, pctab-cutab)) {
		t.Error("file names are left")
	}
	for f := range 2 {
		at := functab + index + 44*f
		if !bytes.Equal(got[at+20:at+28], make([]byte, 8)) {
			t.Error("a function still points to its lines")
		}
	}
	if err := dropLines([]byte("no table here")); err == nil {
		t.Error("memory without a table was taken")
	}
}
