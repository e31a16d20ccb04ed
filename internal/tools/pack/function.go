package pack

import "bootfloor/internal/tools/leb128"

// streams is what a program is taken apart into.
type streams [streamCount][]byte

func (s *streams) unsigned(stream int, v uint64) { s[stream] = leb128.AppendUnsigned(s[stream], v) }
func (s *streams) raw(stream int, b []byte)      { s[stream] = append(s[stream], b...) }
func (s *streams) op(op byte)                    { s[operators] = append(s[operators], op) }

// function adds the body of one function, the index-th of the program.
func (s *streams) function(index int, body []byte) {
	before := *s
	if !s.takeApart(int64(index)+firstFunction, body) {
		*s = before
		s.op(ownWhole)
		s.unsigned(locals, uint64(len(body)))
		s.raw(locals, body)
	}
}

// takeApart reports whether the body is of the kind that can be put together
// again. Numbers that are copied keep their bytes; those that are worked out
// again must be plain.
func (s *streams) takeApart(number int64, body []byte) bool {
	r := leb128.Reader{Bytes: body}
	for n := r.Unsigned(); n > 0 && r.Err == nil; n-- {
		skipNumber(&r)
		r.Byte()
	}
	if r.Err != nil {
		return false
	}
	s.raw(locals, body[:r.At])
	all := instructions(&r)
	if r.Err != nil {
		return false
	}

	var depth, loop, leave int64
	var points resumePoints
	for i, x := range all {
		if !x.plain() {
			return false
		}
		after := func(op byte, back int) bool { return i >= back && all[i-back].op == op }
		fromStack := func(back int) bool { return after(opLocalGet, back) && all[i-back].a == stackPointer }
		switch op := x.op; {
		case op == opBlock || op == opLoop || op == opIf:
			depth++
			if op == opBlock && leave == 0 {
				leave = depth
			}
			if op == opLoop && loop == 0 {
				loop = depth
			}
			s.raw(operators, x.raw)
		case op == opEnd:
			depth--
			s.op(op)
			if depth < 0 {
				// The end of the function is where the way back stops reading.
				return i == len(all)-1
			}
		case op == opBr && loop > 0 && x.a == depth-loop:
			s.op(ownLoop)
		case op == opBrIf && leave > 0 && x.a == depth-leave:
			s.op(ownLeave)
		case op == opBrTable:
			if points.first != nil || !points.read(x.table, depth) {
				return false
			}
			s.op(op)
			s.unsigned(resumes, uint64(len(points.first)-1))
			for k := range len(points.first) - 1 {
				s.unsigned(resumes, uint64(points.first[k+1]-points.first[k]))
			}
		case op == opCall:
			s.op(op)
			s.raw(calls, x.raw[1:])
		case op == opI64Load && fromStack(1):
			s.op(ownStack)
			s.raw(stackLoads, x.raw[2:])
		case op >= firstMemory && op < opMemorySize:
			s.op(op)
			s.raw(memoryStream(op), x.raw[2:])
		case op == opI32Const && i+1 < len(all) && all[i+1].op == opLocalSet && all[i+1].a == 0 && points.index(x.a) >= 0:
			s.op(ownJump)
			s.unsigned(jumps, folded(int64(points.index(x.a))-points.next(depth)))
		case op == opI32Const && len(x.raw) > 2:
			s.op(ownWord)
			s.raw(words, x.raw[1:])
		case op == opI64Const && x.a>>16 == number:
			s.op(ownReturn)
			s.unsigned(returns, folded(x.a&0xffff-points.expected(depth)))
		case op == opI64Const && after(opExtendU, 1) && fromStack(2):
			s.op(ownFrame)
			s.raw(frames, x.raw[1:])
		case op == opI64Const && len(x.raw) > 3:
			s.op(ownAddress)
			s.raw(addresses, x.raw[1:])
		case op == opI64Const:
			s.op(op)
			s.raw(longs, x.raw[1:])
		case op == opF32Const || op == opF64Const:
			s.op(op)
			s.raw(floats, x.raw[1:])
		default:
			s.raw(operators, x.raw)
		}
	}
	return false
}

func memoryStream(op byte) int {
	switch op {
	case opI64Store:
		return stores
	case opI64Load:
		return loads
	}
	return offsets
}

// resumePoints are the places at which a function goes on after it has given
// way to another goroutine. Its body begins with one block for each, and a
// table from numbers of places to blocks, in rising order.
type resumePoints struct {
	first []int64 // the first place of each block
	depth int64   // of the table
}

// read takes a table in which every block but the last has a run of places, and
// the last is the default alone.
func (p *resumePoints) read(table []int64, depth int64) bool {
	p.depth = depth
	for i, v := range table {
		if v == int64(len(p.first)) {
			p.first = append(p.first, int64(i))
		} else if v != int64(len(p.first)-1) {
			return false
		}
	}
	return len(table) > 0 && p.first[len(p.first)-1] == int64(len(table)-1)
}

// next is the index of the block that ends next, at this depth.
func (p *resumePoints) next(depth int64) int64 { return p.depth - depth }

// index is that of the block that begins at a place, or -1.
func (p *resumePoints) index(place int64) int {
	for i, v := range p.first {
		if v == place {
			return i
		}
	}
	return -1
}

// expected is the place at which a call made at this depth returns.
func (p *resumePoints) expected(depth int64) int64 {
	if i := p.next(depth); i >= 0 && i < int64(len(p.first)) {
		return p.first[i]
	}
	return 0
}

// folded makes small numbers of both signs small numbers: 0, -1, 1, -2, ...
func folded(v int64) uint64 { return uint64(v<<1) ^ uint64(v>>63) }
