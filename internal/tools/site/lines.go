package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
)

// dropLines blanks, inside a Go WebAssembly module, the tables that map code
// to source files and lines. They only serve stack traces, and make a sixth of
// what a reader downloads (measured: see make bench). What the runtime needs
// to walk a stack, the names of functions included, stays; a trace then reads
// "?:0" where a line stood. The length of the module does not change: zeros
// are what compresses away.
//
// The layout is that of runtime.pcHeader and runtime._func of Go 1.20 to 1.26
// (src/runtime/symtab.go). An unknown layout is an error and changes nothing.
func dropLines(module []byte) error {
	image, err := dataImage(module)
	if err != nil {
		return err
	}
	// magic 0xfffffff1, two zero bytes, an instruction step of one, 8-byte pointers.
	start := bytes.Index(image.bytes, []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8})
	if start < 0 {
		return errors.New("no table of functions was found in the module")
	}
	t := image.bytes[start:]
	word := func(i int) int { return int(binary.LittleEndian.Uint64(t[8+8*i:])) }
	count, pctab, functab := word(0), word(6), word(7)
	cutab, filetab := word(4), word(5)
	if count <= 0 || !(cutab < filetab && filetab < pctab && pctab < functab) || functab+8*count > len(t) {
		return errors.New("the table of functions has a layout that is not known here")
	}
	u32 := func(at int) int { return int(binary.LittleEndian.Uint32(t[at:])) }
	needed := make([]bool, functab-pctab)
	keep := func(offset int) {
		if offset == 0 {
			return
		}
		for i := offset; i < len(needed); {
			// A table is pairs of variable-length numbers; a zero value
			// difference after the first pair ends it.
			at := i
			for t[pctab+i]&0x80 != 0 {
				i++
			}
			i++
			last := i-at == 1 && t[pctab+at] == 0 && at != offset
			if !last {
				for t[pctab+i]&0x80 != 0 {
					i++
				}
				i++
			}
			for k := at; k < i; k++ {
				needed[k] = true
			}
			if last {
				return
			}
		}
	}
	for f := range count {
		fn := functab + u32(functab+8*f+4)
		keep(u32(fn + 16)) // pcsp
		clear(t[fn+20 : fn+28])
		for k := range u32(fn + 28) {
			keep(u32(fn + 44 + 4*k))
		}
	}
	for i, n := range needed {
		if !n {
			t[pctab+i] = 0
		}
	}
	clear(t[cutab:pctab])
	image.write(module)
	return nil
}

// memory is the initial memory of a module and where each stretch of it lies.
type memory struct {
	bytes  []byte
	pieces []piece
}

type piece struct{ at, file, length int }

// write puts the image back into the module.
func (m memory) write(module []byte) {
	for _, p := range m.pieces {
		copy(module[p.file:p.file+p.length], m.bytes[p.at:])
	}
}

// dataImage reads the data section of a module: active segments at constant
// offsets, as Go's linker writes them (WebAssembly core specification, 5.5.14).
func dataImage(module []byte) (memory, error) {
	var m memory
	if !bytes.HasPrefix(module, []byte("\x00asm\x01\x00\x00\x00")) {
		return m, errors.New("this is no WebAssembly module of version 1")
	}
	const dataSection = 11
	for at := 8; at < len(module); {
		id := module[at]
		size, n := binary.Uvarint(module[at+1:])
		at += 1 + n
		if n <= 0 || at+int(size) > len(module) {
			return m, errors.New("a section of the module is cut short")
		}
		if id == dataSection {
			return readSegments(module, at)
		}
		at += int(size)
	}
	return m, errors.New("the module has no data section")
}

func readSegments(module []byte, at int) (memory, error) {
	var m memory
	count, n := binary.Uvarint(module[at:])
	at += n
	for range count {
		// Flags 0, i32.const offset, end.
		if module[at] != 0 || module[at+1] != 0x41 {
			return m, fmt.Errorf("a data segment at byte %d is of a kind not known here", at)
		}
		offset, n := signedLEB(module[at+2:])
		at += 2 + n
		if module[at] != 0x0b {
			return m, fmt.Errorf("a data segment at byte %d has no plain offset", at)
		}
		length, n := binary.Uvarint(module[at+1:])
		at += 1 + n
		p := piece{at: offset, file: at, length: int(length)}
		if need := p.at + p.length; need > len(m.bytes) {
			m.bytes = append(m.bytes, make([]byte, need-len(m.bytes))...)
		}
		copy(m.bytes[p.at:], module[p.file:p.file+p.length])
		m.pieces = append(m.pieces, p)
		at += p.length
	}
	return m, nil
}

// signedLEB reads a signed LEB128 number and returns its length.
func signedLEB(b []byte) (value, n int) {
	var shift uint
	for {
		c := b[n]
		value |= int(c&0x7f) << shift
		shift += 7
		n++
		if c&0x80 == 0 {
			if c&0x40 != 0 {
				value |= -1 << shift
			}
			return value, n
		}
	}
}
