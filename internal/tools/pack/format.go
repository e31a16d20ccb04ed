package pack

// The streams, in the order in which they are laid out.
const (
	outside    = iota // what stands before the functions, and after them
	pairs             // for each byte that stands for two: itself and the two
	operators         // of all functions, paired
	locals            // what each function declares, and those stored whole
	resumes           // how many places a function resumes at, and the runs of its table
	returns           // return addresses, less those expected
	jumps             // the resume points jumped to, less the next one
	calls             // functions called
	frames            // places in the frame whose address is taken
	stackLoads        // places in the frame that are loaded
	stores            // offsets of 8-byte stores
	loads             // offsets of 8-byte loads
	offsets           // of all other loads and stores
	words             // 4-byte numbers of more than one byte
	longs             // 8-byte numbers
	addresses         // 8-byte numbers that are places in memory
	floats
	firstColumn // the words of the table of functions, a stream for each column
	streamCount = firstColumn + columns
)

// Operators of the core specification that matter here.
const (
	opBlock       = 0x02
	opLoop        = 0x03
	opIf          = 0x04
	opEnd         = 0x0b
	opBr          = 0x0c
	opBrIf        = 0x0d
	opBrTable     = 0x0e
	opCall        = 0x10
	opCallIndir   = 0x11
	opLocalGet    = 0x20
	opLocalSet    = 0x21
	opI64Load     = 0x29
	opI64Store    = 0x37
	opMemorySize  = 0x3f
	opMemoryGrow  = 0x40
	opI32Const    = 0x41
	opI64Const    = 0x42
	opF32Const    = 0x43
	opF64Const    = 0x44
	opLastNumeric = 0xc4
	opExtendU     = 0xad // i64.extend_i32_u
	opPrefix      = 0xfc
)

// Operators of our own, out of those that the specification leaves unused.
const (
	ownReturn  = 0xe0 + iota // i64.const of a return address
	ownJump                  // i32.const of a resume point
	ownFrame                 // i64.const of a place in the frame
	ownAddress               // i64.const of a place in memory
	ownWord                  // i32.const of more than one byte
	ownLoop                  // br to the function's loop
	ownLeave                 // br_if to the function's way out
	ownStack                 // i64.load from the frame
	ownWhole                 // stands alone: the function is stored as it is
)

// Where Go keeps its stack pointer, and where it counts functions from.
const (
	stackPointer  = 1
	firstFunction = 0x1000
)

// alignment of each load and store, which Go never departs from: the exponent
// of its natural size.
var alignment = [...]byte{
	2, 3, 2, 3, // i32.load i64.load f32.load f64.load
	0, 0, 1, 1, // i32.load8_s 8_u 16_s 16_u
	0, 0, 1, 1, 2, 2, // i64.load8_s 8_u 16_s 16_u 32_s 32_u
	2, 3, 2, 3, // i32.store i64.store f32.store f64.store
	0, 1, // i32.store8 16
	0, 1, 2, // i64.store8 16 32
}

const firstMemory = 0x28
