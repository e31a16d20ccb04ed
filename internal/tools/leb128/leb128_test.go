package leb128

import (
	"bytes"
	"math"
	"testing"
)

// The numbers of the examples in the DWARF standard, version 4, section 7.6,
// figures 22 and 23.
func TestExamplesOfTheStandard(t *testing.T) {
	for v, want := range map[uint64][]byte{2: {2}, 127: {127}, 128: {0x80, 1}, 12857: {0xb9, 0x64}} {
		r := Reader{Bytes: want}
		if got := AppendUnsigned(nil, v); !bytes.Equal(got, want) || r.Unsigned() != v {
			t.Errorf("%d is % x, want % x", v, got, want)
		}
	}
	for v, want := range map[int64][]byte{2: {2}, -2: {0x7e}, 127: {0xff, 0}, -127: {0x81, 0x7f}, 128: {0x80, 1}, -128: {0x80, 0x7f}, -129: {0xff, 0x7e}} {
		r := Reader{Bytes: want}
		if got := AppendSigned(nil, v); !bytes.Equal(got, want) || r.Signed() != v {
			t.Errorf("%d is % x, want % x", v, got, want)
		}
	}
}

func TestEnds(t *testing.T) {
	for _, v := range []int64{math.MinInt64, math.MaxInt64} {
		r := Reader{Bytes: AppendSigned(nil, v)}
		if got := r.Signed(); got != v || r.Err != nil {
			t.Errorf("%d came back as %d, %v", v, got, r.Err)
		}
	}
	for _, b := range [][]byte{nil, {0x80}, bytes.Repeat([]byte{0x80}, 12)} {
		r := Reader{Bytes: b}
		if r.Unsigned(); r.Err == nil {
			t.Errorf("% x was taken", b)
		}
		if r = (Reader{Bytes: b}); r.Signed() != 0 || r.Err == nil {
			t.Errorf("% x was taken as signed", b)
		}
	}
}
