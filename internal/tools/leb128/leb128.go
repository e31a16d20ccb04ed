// Package leb128 reads and writes the numbers of variable length that
// WebAssembly is made of (core specification, section 5.2.2; DWARF, version 4,
// section 7.6).
package leb128

import "errors"

// Err is what a Reader keeps when the bytes end early or a number is too long.
var Err = errors.New("cut short, or a number that is too long")

// Reader reads bytes and numbers; after an error it reads zeros.
type Reader struct {
	Bytes []byte
	At    int
	Err   error
}

// Byte reads one byte.
func (r *Reader) Byte() byte {
	if r.At >= len(r.Bytes) {
		r.Err = Err
		return 0
	}
	r.At++
	return r.Bytes[r.At-1]
}

// Take reads n bytes; they are not copied.
func (r *Reader) Take(n int) []byte {
	if n < 0 || n > len(r.Bytes)-r.At {
		r.Err = Err
		return nil
	}
	r.At += n
	return r.Bytes[r.At-n : r.At]
}

// Unsigned reads a number of up to 64 bits.
func (r *Reader) Unsigned() uint64 {
	var v uint64
	for shift := 0; shift < 64; shift += 7 {
		b := r.Byte()
		v |= uint64(b&0x7f) << shift
		if b < 0x80 {
			return v
		}
	}
	r.Err = Err
	return 0
}

// Signed reads a number of up to 64 bits with its sign.
func (r *Reader) Signed() int64 {
	var v int64
	for shift := 0; shift < 70; shift += 7 {
		b := r.Byte()
		if shift < 64 {
			v |= int64(b&0x7f) << shift
		}
		if b < 0x80 {
			if b&0x40 != 0 && shift+7 < 64 {
				v |= -1 << (shift + 7)
			}
			return v
		}
	}
	r.Err = Err
	return 0
}

// AppendUnsigned writes a number in as few bytes as it needs.
func AppendUnsigned(b []byte, v uint64) []byte {
	for v >= 0x80 {
		b = append(b, byte(v)|0x80)
		v >>= 7
	}
	return append(b, byte(v))
}

// AppendSigned writes a number with its sign in as few bytes as it needs.
func AppendSigned(b []byte, v int64) []byte {
	for v < -0x40 || v >= 0x40 {
		b = append(b, byte(v)|0x80)
		v >>= 7
	}
	return append(b, byte(v)&0x7f)
}
