package main

import (
	"bytes"
	"encoding/binary"
	"errors"
)

var errTable = errors.New("the table of functions has a layout that is not known here")

// dropLines blanks, in the memory image of a Go program, the tables that map
// code to source files and lines. They only serve stack traces, and are one
// part in twenty of what a reader downloads. What the runtime needs to walk a
// stack stays, the names of functions included; a trace then reads "?:0" where
// a line stood. Lengths do not change: zeros are what packs to nothing.
//
// The layout is that of runtime.pcHeader and runtime._func of Go 1.20 to 1.26
// (src/runtime/symtab.go, runtime2.go). Any other is an error, and the memory
// is left as it was.
func dropLines(memory []byte) error {
	// Magic 0xfffffff1, two zero bytes, an instruction step of one, 8-byte words.
	start := bytes.Index(memory, []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8})
	if start < 0 || start+72 > len(memory) {
		return errTable
	}
	t := memory[start:]
	word := func(i int) int { return int(binary.LittleEndian.Uint64(t[8+8*i:])) }
	count, cutab, filetab, pctab, functab := word(0), word(4), word(5), word(6), word(7)
	if !(count > 0 && 0 < cutab && cutab < filetab && filetab < pctab && pctab < functab && functab+8*count < len(t)) {
		return errTable
	}
	u32 := func(at int) int { return int(binary.LittleEndian.Uint32(t[at:])) }
	needed := make([]bool, functab-pctab)
	for f := range count {
		fn := functab + u32(functab+8*f+4)
		if fn+44 > len(t) || fn+44+4*u32(fn+28) > len(t) || u32(fn+16) >= len(needed) {
			return errTable
		}
		keepTable(t[pctab:functab], needed, u32(fn+16)) // pcsp: how deep the stack is
		for k := range u32(fn + 28) {
			keepTable(t[pctab:functab], needed, u32(fn+44+4*k))
		}
	}
	for f := range count {
		fn := functab + u32(functab+8*f+4)
		clear(t[fn+20 : fn+28]) // pcfile, pcln
		clear(t[fn+32 : fn+40]) // cuOffset, startLine
	}
	for i, n := range needed {
		if !n {
			t[pctab+i] = 0
		}
	}
	clear(t[cutab:pctab])
	return nil
}

// keepTable marks the bytes of one table of pairs (difference of value,
// difference of place), each number of variable length: a zero difference of
// value after the first pair ends it.
func keepTable(tables []byte, needed []bool, offset int) {
	if offset == 0 || offset >= len(tables) {
		return
	}
	number := func(i int) int {
		for i < len(tables) && tables[i]&0x80 != 0 {
			i++
		}
		return min(i+1, len(tables))
	}
	for i := offset; i < len(tables); {
		value := number(i)
		end := i > offset && value == i+1 && tables[i] == 0
		next := value
		if !end {
			next = number(value)
		}
		for k := i; k < next; k++ {
			needed[k] = true
		}
		if end {
			return
		}
		i = next
	}
}
