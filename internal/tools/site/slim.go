package main

import (
	"bytes"
	"errors"
	"fmt"

	"bootfloor/internal/tools/leb128"
)

// Section and opcode numbers of the WebAssembly core specification, version 1,
// sections 5.5.2 and 5.4.
const (
	dataSection = 11
	opI32Const  = 0x41
	opEnd       = 0x0b
)

var errWasm = errors.New("not the WebAssembly that this tool knows")

// joinData rewrites a program's data as one segment. Go's linker starts a new
// one after every few zero bytes, which makes some sixty thousand of them:
// their addresses take more room, packed and unpacked, than the zeros do.
// Memory starts as zeros, so filling the gaps with zeros changes nothing.
func joinData(wasm []byte) ([]byte, error) {
	const header = 8
	if len(wasm) < header || !bytes.HasPrefix(wasm, []byte("\x00asm\x01\x00\x00\x00")) {
		return nil, errWasm
	}
	out := append([]byte(nil), wasm[:header]...)
	r := leb128.Reader{Bytes: wasm, At: header}
	for r.At < len(wasm) && r.Err == nil {
		begin := r.At
		id := r.Byte()
		size := int(r.Unsigned())
		end := r.At + size
		if r.Err != nil || end > len(wasm) {
			return nil, errWasm
		}
		if id != dataSection {
			out = append(out, wasm[begin:end]...)
			r.At = end
			continue
		}
		section := leb128.Reader{Bytes: wasm[:end], At: r.At}
		joined, err := joined(&section)
		if err != nil {
			return nil, err
		}
		out = append(out, dataSection)
		out = leb128.AppendUnsigned(out, uint64(len(joined)))
		out = append(out, joined...)
		r.At = end
	}
	return out, r.Err
}

// joined reads a data section's segments and returns one with the same effect.
func joined(r *leb128.Reader) ([]byte, error) {
	type segment struct {
		at   int64
		data []byte
	}
	var segments []segment
	var low, high int64
	for n := r.Unsigned(); n > 0 && r.Err == nil; n-- {
		if r.Byte() != 0 || r.Byte() != opI32Const {
			return nil, fmt.Errorf("%w: a data segment whose address is no constant", errWasm)
		}
		at := r.Signed()
		if r.Byte() != opEnd {
			return nil, fmt.Errorf("%w: a data segment whose address is no constant", errWasm)
		}
		data := r.Take(int(r.Unsigned()))
		if len(segments) == 0 || at < low {
			low = at
		}
		high = max(high, at+int64(len(data)))
		segments = append(segments, segment{at, data})
	}
	if r.Err != nil || r.At != len(r.Bytes) || low < 0 {
		return nil, errWasm
	}
	memory := make([]byte, high-low)
	for _, s := range segments {
		copy(memory[s.at-low:], s.data)
	}
	// A program whose table has another layout keeps its lines.
	if err := dropLines(memory); err != nil && !errors.Is(err, errTable) {
		return nil, err
	}
	out := []byte{1, 0, opI32Const}
	out = leb128.AppendSigned(out, low)
	out = append(out, opEnd)
	out = leb128.AppendUnsigned(out, uint64(len(memory)))
	return append(out, memory...), nil
}
