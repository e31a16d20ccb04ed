package pack

import (
	"bytes"
	"compress/gzip"

	"bootfloor/internal/tools/leb128"
)

// Magic begins every packed program, inside its gzip.
const Magic = "bfp1"

// Program packs a WebAssembly program. The error is for bytes that are none.
func Program(wasm []byte) ([]byte, error) {
	flat, err := flatten(wasm)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(flat); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// flatten lays the streams of a program end to end.
func flatten(wasm []byte) ([]byte, error) {
	bodies, begin, end, err := functions(wasm)
	if err != nil {
		return nil, err
	}
	var s streams
	t := findTable(wasm)
	if rest := bytes.Clone(wasm); t.take(rest, &s) {
		wasm = rest
	} else {
		t = table{}
	}
	s.raw(outside, wasm[:begin])
	s.raw(outside, wasm[end:])
	for i, body := range bodies {
		s.function(i, body)
	}
	s[operators], s[pairs] = pair(s[operators])

	out := []byte(Magic)
	out = leb128.AppendUnsigned(out, uint64(len(wasm)))
	out = leb128.AppendUnsigned(out, uint64(begin))
	out = leb128.AppendUnsigned(out, uint64(len(bodies)))
	out = leb128.AppendUnsigned(out, uint64(t.at))
	out = leb128.AppendUnsigned(out, uint64(t.count))
	for _, b := range s {
		out = leb128.AppendUnsigned(out, uint64(len(b)))
	}
	for _, b := range s {
		out = append(out, b...)
	}
	return out, nil
}

// functions returns the bodies of a program's functions, and where they begin
// and end.
func functions(wasm []byte) (bodies [][]byte, begin, end int, err error) {
	const (
		header      = "\x00asm\x01\x00\x00\x00"
		codeSection = 10
	)
	if !bytes.HasPrefix(wasm, []byte(header)) {
		return nil, 0, 0, errWasm
	}
	r := leb128.Reader{Bytes: wasm, At: len(header)}
	for r.At < len(wasm) && r.Err == nil {
		id := r.Byte()
		section := r.Take(int(r.Unsigned()))
		if id != codeSection || r.Err != nil {
			continue
		}
		end = r.At
		in := leb128.Reader{Bytes: wasm[:end], At: end - len(section)}
		n := in.Unsigned()
		begin = in.At
		for ; n > 0 && in.Err == nil; n-- {
			size := skipNumber(&in)
			v := leb128.Reader{Bytes: size}
			length := v.Unsigned()
			if len(size) != len(leb128.AppendUnsigned(nil, length)) {
				return nil, 0, 0, errWasm
			}
			bodies = append(bodies, in.Take(int(length)))
		}
		if in.Err != nil || in.At != end {
			return nil, 0, 0, errWasm
		}
	}
	if r.Err != nil {
		return nil, 0, 0, r.Err
	}
	if bodies == nil {
		begin, end = len(wasm), len(wasm)
	}
	return bodies, begin, end, nil
}
