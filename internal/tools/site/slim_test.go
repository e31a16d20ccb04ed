package main

import (
	"bytes"
	"testing"

	"bootfloor/internal/tools/leb128"
)

// program makes a module with one custom section before and after its data.
func program(segments ...[]byte) []byte {
	data := leb128.AppendUnsigned(nil, uint64(len(segments)))
	for _, s := range segments {
		data = append(data, s...)
	}
	custom := []byte{0, 3, 1, 'n', 9}
	out := append([]byte("\x00asm\x01\x00\x00\x00"), custom...)
	out = append(out, dataSection)
	out = leb128.AppendUnsigned(out, uint64(len(data)))
	out = append(out, data...)
	return append(out, custom...)
}

func segment(at int64, data ...byte) []byte {
	out := append([]byte{0, opI32Const}, leb128.AppendSigned(nil, at)...)
	out = append(out, opEnd)
	out = leb128.AppendUnsigned(out, uint64(len(data)))
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
