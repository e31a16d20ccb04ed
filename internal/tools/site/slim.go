package main

import (
	"bytes"
	"errors"
	"fmt"
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
	r := reader{b: wasm, at: header}
	for r.at < len(wasm) && r.err == nil {
		begin := r.at
		id := r.byte()
		size := int(r.unsigned())
		end := r.at + size
		if r.err != nil || end > len(wasm) {
			return nil, errWasm
		}
		if id != dataSection {
			out = append(out, wasm[begin:end]...)
			r.at = end
			continue
		}
		section := reader{b: wasm[:end], at: r.at}
		joined, err := section.joined()
		if err != nil {
			return nil, err
		}
		out = append(out, dataSection)
		out = appendUnsigned(out, uint64(len(joined)))
		out = append(out, joined...)
		r.at = end
	}
	return out, r.err
}

// joined reads a data section's segments and returns one with the same effect.
func (r *reader) joined() ([]byte, error) {
	type segment struct {
		at   int64
		data []byte
	}
	var segments []segment
	var low, high int64
	for n := r.unsigned(); n > 0 && r.err == nil; n-- {
		if r.byte() != 0 || r.byte() != opI32Const {
			return nil, fmt.Errorf("%w: a data segment whose address is no constant", errWasm)
		}
		at := r.signed()
		if r.byte() != opEnd {
			return nil, fmt.Errorf("%w: a data segment whose address is no constant", errWasm)
		}
		data := r.bytes(int(r.unsigned()))
		if len(segments) == 0 || at < low {
			low = at
		}
		high = max(high, at+int64(len(data)))
		segments = append(segments, segment{at, data})
	}
	if r.err != nil || r.at != len(r.b) || low < 0 {
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
	out = appendSigned(out, low)
	out = append(out, opEnd)
	out = appendUnsigned(out, uint64(len(memory)))
	return append(out, memory...), nil
}

// reader reads bytes and LEB128 numbers; after an error it reads zeros.
type reader struct {
	b   []byte
	at  int
	err error
}

func (r *reader) byte() byte {
	if r.at >= len(r.b) {
		r.err = errWasm
		return 0
	}
	r.at++
	return r.b[r.at-1]
}

func (r *reader) bytes(n int) []byte {
	if n < 0 || n > len(r.b)-r.at {
		r.err = errWasm
		return nil
	}
	r.at += n
	return r.b[r.at-n : r.at]
}

func (r *reader) unsigned() uint64 {
	var v uint64
	for shift := 0; shift < 64; shift += 7 {
		b := r.byte()
		v |= uint64(b&0x7f) << shift
		if b < 0x80 {
			return v
		}
	}
	r.err = errWasm
	return 0
}

func (r *reader) signed() int64 {
	var v int64
	for shift := 0; shift < 64; shift += 7 {
		b := r.byte()
		v |= int64(b&0x7f) << shift
		if b < 0x80 {
			if b&0x40 != 0 {
				v |= -1 << (shift + 7)
			}
			return v
		}
	}
	r.err = errWasm
	return 0
}

func appendUnsigned(b []byte, v uint64) []byte {
	for v >= 0x80 {
		b = append(b, byte(v)|0x80)
		v >>= 7
	}
	return append(b, byte(v))
}

func appendSigned(b []byte, v int64) []byte {
	for v < -0x40 || v >= 0x40 {
		b = append(b, byte(v)|0x80)
		v >>= 7
	}
	return append(b, byte(v)&0x7f)
}
