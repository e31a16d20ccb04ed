package main

import (
	"bytes"
	"testing"
)

// program makes a module with one custom section before and after its data.
func program(segments ...[]byte) []byte {
	data := appendUnsigned(nil, uint64(len(segments)))
	for _, s := range segments {
		data = append(data, s...)
	}
	custom := []byte{0, 3, 1, 'n', 9}
	out := append([]byte("\x00asm\x01\x00\x00\x00"), custom...)
	out = append(out, dataSection)
	out = appendUnsigned(out, uint64(len(data)))
	out = append(out, data...)
	return append(out, custom...)
}

func segment(at int64, data ...byte) []byte {
	out := append([]byte{0, opI32Const}, appendSigned(nil, at)...)
	out = append(out, opEnd)
	out = appendUnsigned(out, uint64(len(data)))
	return append(out, data...)
}

func TestJoinDataKeepsWhatMemoryHolds(t *testing.T) {
	got, err := joinData(program(segment(4096, 1, 2), segment(4100, 3), segment(4200, 4)))
	if err != nil {
		t.Fatal(err)
	}
	memory := make([]byte, 105)
	copy(memory, []byte{1, 2, 0, 0, 3})
	memory[104] = 4
	if want := program(segment(4096, memory...)); !bytes.Equal(got, want) {
		t.Errorf("got\n% x\nwant\n% x", got, want)
	}
}

func TestJoinDataRefusesWhatItDoesNotKnow(t *testing.T) {
	good := program(segment(0, 1))
	for name, bad := range map[string][]byte{
		"not wasm":        []byte("<!doctype html>"),
		"cut short":       good[:len(good)-8],
		"passive segment": program([]byte{1, 1, 7}),
		"global address":  program([]byte{0, 0x23, 0, opEnd, 1, 7}),
	} {
		if _, err := joinData(bad); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
}

// The numbers of the examples in the DWARF standard, version 4, section 7.6,
// figures 22 and 23.
func TestLEB128(t *testing.T) {
	for v, want := range map[uint64][]byte{2: {2}, 127: {127}, 128: {0x80, 1}, 12857: {0xb9, 0x64}} {
		r := reader{b: want}
		if got := appendUnsigned(nil, v); !bytes.Equal(got, want) || r.unsigned() != v {
			t.Errorf("%d is % x, want % x", v, got, want)
		}
	}
	for v, want := range map[int64][]byte{2: {2}, -2: {0x7e}, 127: {0xff, 0}, -127: {0x81, 0x7f}, 128: {0x80, 1}, -128: {0x80, 0x7f}, -129: {0xff, 0x7e}} {
		r := reader{b: want}
		if got := appendSigned(nil, v); !bytes.Equal(got, want) || r.signed() != v {
			t.Errorf("%d is % x, want % x", v, got, want)
		}
	}
}
