// Package pack rewrites a WebAssembly program so that gzip makes it smaller,
// and so that a browser can have the same bytes back in some tens of
// milliseconds (www/worker/unpack.js).
//
// Gzip finds repeated bytes. In a Go program nearly everything repeats, but not
// as bytes: each call writes its own return address, each branch counts the
// blocks around it, and numbers of one kind stand between numbers of another.
// So the operators of all functions go into one stream, the numbers into one
// stream for each thing that they mean, and what follows from the rest is left
// out:
//
//   - the return address that a call pushes, and the target of a jump, from the
//     table of resume points at the head of the function;
//   - the depth of a branch to a function's loop or to its way out;
//   - the sizes of functions.
//
// Pairs of bytes that occur most often in the stream of operators become one
// byte (P. Gage, A new algorithm for data compression, C Users Journal 12(2),
// 1994). The rest is left to gzip, which every browser has.
//
// # Layout
//
// After gzip: the four bytes "bfp1"; then unsigned LEB128 numbers: the length of
// the program, the length of what stands before its functions, the number of
// functions, the place and length of Go's table of functions, and the length of
// each stream; then the streams (format.go).
//
// A function that could not be given back byte for byte, because a later
// toolchain writes what is not known here, is stored as it is, and so is a table
// of functions of another layout.
//
// Operators are those of the WebAssembly core specification, version 2, section
// 5.4. How Go uses them is in cmd/internal/obj/wasm of its source, versions
// 1.21 to 1.26.
package pack
