package pack

import (
	"errors"

	"bootfloor/internal/tools/leb128"
)

var errWasm = errors.New("not the WebAssembly that this package knows")

// instruction is one instruction as it stands in the program.
type instruction struct {
	op    byte
	raw   []byte  // with its operator
	a     int64   // its number, where it has one; of a load or store the offset
	table []int64 // of br_table
}

// instructions reads all of a function's body after its locals.
func instructions(r *leb128.Reader) []instruction {
	var all []instruction
	for r.At < len(r.Bytes) && r.Err == nil {
		start := r.At
		x := instruction{op: r.Byte()}
		switch op := x.op; {
		case op == opBlock || op == opLoop || op == opIf:
			x.a = r.Signed()
		case op == opBr || op == opBrIf || op == opCall || op >= opLocalGet && op <= 0x24:
			x.a = int64(r.Unsigned())
		case op == opBrTable:
			for n := r.Unsigned() + 1; n > 0 && r.Err == nil; n-- {
				x.table = append(x.table, int64(r.Unsigned()))
			}
		case op == opCallIndir:
			skipNumber(r)
			skipNumber(r)
		case op >= firstMemory && op < opMemorySize:
			if r.Byte() != alignment[op-firstMemory] {
				r.Err = errWasm
			}
			x.a = int64(r.Unsigned())
		case op == opMemorySize || op == opMemoryGrow:
			r.Byte()
		case op == opI32Const || op == opI64Const:
			x.a = r.Signed()
		case op == opF32Const:
			r.Take(4)
		case op == opF64Const:
			r.Take(8)
		case op == opPrefix:
			switch sub := r.Byte(); {
			case sub < 8: // truncation that saturates
			case sub == 10: // memory.copy
				r.Take(2)
			case sub == 11: // memory.fill
				r.Byte()
			default:
				r.Err = errWasm
			}
		case op <= 0x05 || op == opEnd || op == 0x0f || op == 0x1a || op == 0x1b || op >= 0x45 && op <= opLastNumeric:
		default:
			r.Err = errWasm
		}
		x.raw = r.Bytes[start:r.At]
		all = append(all, x)
	}
	return all
}

// plain says that every number is written in as few bytes as it needs, so that
// it can be written again from its value.
func (x instruction) plain() bool {
	n := len(x.raw) - 1
	switch op := x.op; {
	case op == opBr || op == opBrIf:
		return n == len(leb128.AppendUnsigned(nil, uint64(x.a)))
	case op == opBrTable:
		want := leb128.AppendUnsigned(nil, uint64(len(x.table)-1))
		for _, v := range x.table {
			want = leb128.AppendUnsigned(want, uint64(v))
		}
		return n == len(want)
	case op == opBlock || op == opLoop || op == opIf:
		return n == 1
	case op == opI32Const || op == opI64Const:
		return n == len(leb128.AppendSigned(nil, x.a))
	}
	return true
}

// skipNumber passes over one LEB128 number and returns its bytes.
func skipNumber(r *leb128.Reader) []byte {
	start := r.At
	for r.Byte() >= 0x80 {
	}
	if r.Err != nil || r.At-start > 10 {
		r.Err = errWasm
		return nil
	}
	return r.Bytes[start:r.At]
}
