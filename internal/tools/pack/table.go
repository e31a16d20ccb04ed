package pack

import (
	"bytes"
	"encoding/binary"
)

// Go keeps a table of its functions for walking the stack: an index of places,
// and for each function a record of 4-byte words (runtime._func in
// src/runtime/runtime2.go, versions 1.20 to 1.26). A word is most like the word
// of the same meaning in the record before.
const (
	fixedWords = 11 // entry to the numbers of the others
	pcdata     = 4  // at most so many places of tables
	funcdata   = 10
	columns    = fixedWords + pcdata + funcdata

	wordPCData = 7  // holds how many places of tables follow
	wordCounts = 10 // holds in its last byte how many words of data follow them
)

// table is where the table of functions lies in a program.
type table struct {
	at    int // of its index
	count int // of functions
}

// findTable returns an empty table where there is none of the layout that is
// known here.
func findTable(wasm []byte) table {
	// Magic 0xfffffff1, two zero bytes, an instruction step of one, 8-byte words.
	start := bytes.Index(wasm, []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8})
	if start < 0 || len(wasm)-start < 72 {
		return table{}
	}
	word := func(i int) uint64 { return binary.LittleEndian.Uint64(wasm[start+8+8*i:]) }
	t := table{at: start + int(word(7)), count: int(word(0))}
	if word(7) > uint64(len(wasm)-start) || word(0) > uint64(len(wasm)-t.at)/8 {
		return table{}
	}
	return t
}

// take moves the words of the table into one stream for each column and leaves
// zeros. It reports false, and changes nothing, where the table cannot be
// written again from them.
func (t table) take(wasm []byte, s *streams) bool {
	if t.count == 0 {
		return false
	}
	before := *s
	var last [columns]uint32
	record := t.at + 8*t.count + 8
	first := record
	half := func(at int) uint32 { return binary.LittleEndian.Uint32(wasm[at:]) }
	for f := range t.count {
		if record+4*fixedWords > len(wasm) || half(t.at+8*f) != half(record) || half(t.at+8*f+4) != uint32(record-t.at) {
			*s = before
			return false
		}
		n, d := int(half(record+4*wordPCData)), int(half(record+4*wordCounts)>>24)
		words := fixedWords + n + d
		if n > pcdata || d > funcdata || record+4*words+4 > len(wasm) {
			*s = before
			return false
		}
		for w := range words {
			column := w
			if w >= fixedWords+n {
				column = w - n + pcdata
			}
			s.word(firstColumn+column, half(record+4*w), &last[column])
		}
		record += 4 * words
		if (record-first)%8 != 0 {
			if half(record) != 0 {
				*s = before
				return false
			}
			record += 4
		}
	}
	clear(wasm[t.at : t.at+8*t.count])
	clear(wasm[first:record])
	return true
}

// word writes what a word differs by from the last of its column; the two that
// mean nothing, 0 and all ones, have codes of their own.
func (s *streams) word(stream int, v uint32, last *uint32) {
	switch v {
	case 0:
		s.unsigned(stream, 0)
	case 1<<32 - 1:
		s.unsigned(stream, 1)
	default:
		s.unsigned(stream, 2+folded(int64(int32(v-*last))))
		*last = v
	}
}
