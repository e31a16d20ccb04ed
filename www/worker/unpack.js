'use strict';
/*
 * Puts the packed engine together again. A classic script: a one-file page
 * opened from a disk may not start module workers, the service worker imports
 * it, and where the engine runs on the page's own thread this does too.
 *
 * What the packed bytes are is written in internal/tools/pack/doc.go. A test
 * compares what comes out with what was packed, byte for byte.
 */

/** The streams, in the order of internal/tools/pack/format.go; the head of the file is read like one. */
const OUTSIDE = 0, PAIRS = 1, OPERATORS = 2, LOCALS = 3, RESUMES = 4, RETURNS = 5, JUMPS = 6, CALLS = 7, FRAMES = 8, STACK_LOADS = 9,
  STORES = 10, LOADS = 11, OFFSETS = 12, WORDS = 13, LONGS = 14, ADDRESSES = 15, FLOATS = 16, COLUMNS = 17, HEAD = 42;

/** The exponent of the natural size of each load and store, from 0x28 on. */
const SIZES = [2, 3, 2, 3, 0, 0, 1, 1, 0, 0, 1, 1, 2, 2, 2, 3, 2, 3, 0, 1, 0, 1, 2];

// Most operators are followed by one number, which is copied from a stream. For
// these: the stream (0 means another kind of operator), the operator that they
// stand for, and the size of a load or store (9: none).
const FROM = new Uint8Array(256);
const REAL = Uint8Array.from({ length: 256 }, (_, op) => op);
const SIZE = new Uint8Array(256).fill(9);
SIZES.forEach((size, k) => {
  FROM[0x28 + k] = OFFSETS;
  SIZE[0x28 + k] = size;
});
for (const [op, stream, real, size] of [
  [0x10, CALLS, 0x10, 9], [0x29, LOADS, 0x29, 3], [0x37, STORES, 0x37, 3], [0x42, LONGS, 0x42, 9],
  [0xe2, FRAMES, 0x42, 9], [0xe3, ADDRESSES, 0x42, 9], [0xe4, WORDS, 0x41, 9], [0xe7, STACK_LOADS, 0x29, 3],
]) {
  FROM[op] = stream;
  REAL[op] = real;
  SIZE[op] = size;
}

/**
 * @param {Uint8Array} b  the packed program, out of its gzip
 * @returns {Uint8Array<ArrayBuffer>} the program
 */
function unpackProgram(b) {
  if (String.fromCharCode(...b.subarray(0, 4)) !== 'bfp1') throw new Error('it is not a packed engine');
  const at = new Uint32Array(HEAD + 1);
  at[HEAD] = 4;
  const out = new Uint8Array(numberOf(b, at, HEAD));
  const before = numberOf(b, at, HEAD);
  const functions = numberOf(b, at, HEAD);
  const table = numberOf(b, at, HEAD);
  const records = numberOf(b, at, HEAD);
  const lengths = Array.from({ length: HEAD }, () => numberOf(b, at, HEAD));
  let end = at[HEAD];
  lengths.forEach((length, stream) => {
    at[stream] = end;
    end += length;
  });
  if (end !== b.length) throw new Error('it is cut short');

  const ops = unpair(b.subarray(at[OPERATORS], at[LOCALS]), b.subarray(at[PAIRS], at[OPERATORS]));
  out.set(b.subarray(at[OUTSIDE], at[OUTSIDE] + before));
  const after = putFunctions(b, at, ops, functions, out, before);
  const rest = b.subarray(at[OUTSIDE] + before, at[PAIRS]);
  if (after + rest.length !== out.length) throw new Error('it does not fit together');
  out.set(rest, after);
  putTable(b, at, new DataView(out.buffer), table, records);
  return out;
}

/**
 * Writes the bodies of all functions, each after its size.
 *
 * @param {Uint8Array} b
 * @param {Uint32Array} at  where in b each stream is read next
 * @param {Uint8Array} ops
 * @param {number} functions  how many
 * @param {Uint8Array} out
 * @param {number} o  where in out they begin
 * @returns {number} where in out they end
 */
function putFunctions(b, at, ops, functions, out, o) {
  let i = 0; // in ops
  /** The byte in hand. @type {number} */
  let c;
  for (let f = 0; f < functions; f += 1) {
    // A size is known after its body, which then moves up to it.
    const start = o;
    o += 5;
    if (ops[i] === 0xe8) { // stored whole
      i += 1;
      const length = numberOf(b, at, LOCALS);
      out.set(b.subarray(at[LOCALS], at[LOCALS] += length), o);
      o += length;
    } else {
      const declared = at[LOCALS];
      for (let groups = numberOf(b, at, LOCALS); groups > 0; groups -= 1) {
        numberOf(b, at, LOCALS);
        at[LOCALS] += 1;
      }
      for (let k = declared; k < at[LOCALS]; k += 1) out[o++] = b[k];
      let depth = 0;
      let loop = 0; // depth of the first, likewise of the first block
      let leave = 0;
      /** The first place of each block that is resumed at. */
      let places = [0];
      let tableDepth = 0;
      while (depth >= 0) {
        const op = ops[i++];
        out[o++] = REAL[op];
        if (FROM[op] !== 0) {
          if (SIZE[op] !== 9) out[o++] = SIZE[op];
          let from = at[FROM[op]];
          do out[o++] = c = b[from++]; while (c >= 128);
          at[FROM[op]] = from;
          continue;
        }
        switch (op) {
          case 0x02: case 0x03: case 0x04: // block, loop, if
            depth += 1;
            if (op === 0x02 && leave === 0) leave = depth;
            if (op === 0x03 && loop === 0) loop = depth;
            out[o++] = ops[i++];
            break;
          case 0x0b: // end
            depth -= 1;
            break;
          case 0x11: // call_indirect
            do out[o++] = c = ops[i++]; while (c >= 128);
            do out[o++] = c = ops[i++]; while (c >= 128);
            break;
          case 0x0c: case 0x0d: case 0x20: case 0x21: case 0x22: case 0x23: case 0x24: case 0x3f: case 0x40: case 0x41: // numbers in place
            do out[o++] = c = ops[i++]; while (c >= 128);
            break;
          case 0x43: case 0x44: // f32.const, f64.const
            for (let k = op === 0x43 ? 4 : 8; k > 0; k -= 1) out[o++] = b[at[FLOATS]++];
            break;
          case 0xfc: // saturating truncation, memory.copy (10), memory.fill (11)
            out[o++] = c = ops[i++];
            for (let k = c === 10 ? 2 : c === 11 ? 1 : 0; k > 0; k -= 1) out[o++] = ops[i++];
            break;
          case 0x0e: { // br_table
            tableDepth = depth;
            const runs = numberOf(b, at, RESUMES);
            places = [0];
            for (let k = 0; k < runs; k += 1) places.push(places[k] + numberOf(b, at, RESUMES));
            o = putUnsigned(out, o, places[runs]);
            for (let k = 0; k < runs; k += 1) for (let p = places[k]; p < places[k + 1]; p += 1) o = putUnsigned(out, o, k);
            o = putUnsigned(out, o, runs);
            break;
          }
          case 0xe0: { // i64.const of a return address
            const next = tableDepth - depth;
            out[o - 1] = 0x42;
            o = putSigned(out, o, (f + 0x1000) * 0x10000 + (next >= 0 && next < places.length ? places[next] : 0) + unfolded(b, at, RETURNS));
            break;
          }
          case 0xe1: // i32.const of a resume point
            out[o - 1] = 0x41;
            o = putSigned(out, o, places[tableDepth - depth + unfolded(b, at, JUMPS)]);
            break;
          case 0xe5: // br to the function's loop
            out[o - 1] = 0x0c;
            o = putUnsigned(out, o, depth - loop);
            break;
          case 0xe6: // br_if to the function's way out
            out[o - 1] = 0x0d;
            o = putUnsigned(out, o, depth - leave);
            break;
          // All others stand alone.
        }
      }
    }
    const end = o;
    o = putUnsigned(out, start, end - start - 5);
    out.copyWithin(o, start + 5, end);
    o += end - start - 5;
  }
  return o;
}

/**
 * Writes Go's table of functions into its place: an index, and a record for
 * each function.
 *
 * @param {Uint8Array} b
 * @param {Uint32Array} at
 * @param {DataView} out
 * @param {number} table  where its index begins
 * @param {number} records
 */
function putTable(b, at, out, table, records) {
  const FIXED = 11, PLACES = 7, COUNTS = 10, PC_DATA = 4;
  const last = new Uint32Array(HEAD - COLUMNS);
  const first = table + 8 * records + 8;
  let o = first;
  /** @param {number} column */
  const word = (column) => {
    const code = numberOf(b, at, COLUMNS + column);
    if (code > 1) last[column] += code % 2 ? (1 - code) / 2 : code / 2 - 1;
    const v = code === 0 ? 0 : code === 1 ? 0xffffffff : last[column];
    out.setUint32(o, v, true);
    o += 4;
    return v;
  };
  for (let f = 0; f < records; f += 1) {
    out.setUint32(table + 8 * f + 4, o - table, true);
    out.setUint32(table + 8 * f, word(0), true);
    let places = 0;
    let data = 0;
    for (let column = 1; column < FIXED; column += 1) {
      const v = word(column);
      if (column === PLACES) places = v;
      if (column === COUNTS) data = v >>> 24;
    }
    for (let k = 0; k < places; k += 1) word(FIXED + k);
    for (let k = 0; k < data; k += 1) word(FIXED + PC_DATA + k);
    if ((o - first) % 8 !== 0) o += 4;
  }
}

/**
 * Bytes in which some stand for two others, which may do so again.
 * @param {Uint8Array} short
 * @param {Uint8Array} list  three bytes each: the one and the two it stands for
 */
function unpair(short, list) {
  /** What each byte stands for in the end. @type {number[][]} */
  const means = Array.from({ length: 256 }, (_, c) => [c]);
  for (let i = 0; i < list.length; i += 3) means[list[i]] = [...means[list[i + 1]], ...means[list[i + 2]]];
  let length = 0;
  for (let i = 0; i < short.length; i += 1) length += means[short[i]].length;
  const out = new Uint8Array(length);
  let o = 0;
  for (let i = 0; i < short.length; i += 1) {
    const all = means[short[i]];
    for (let k = 0; k < all.length; k += 1) out[o++] = all[k];
  }
  return out;
}

/** The next unsigned LEB128 number of a stream. @param {Uint8Array} b @param {Uint32Array} at @param {number} stream */
function numberOf(b, at, stream) {
  let v = 0;
  for (let k = 1; ; k *= 128) {
    const c = b[at[stream]++];
    v += (c & 127) * k;
    if (!(c >= 128)) return v;
  }
}

/** The next number of both signs. @param {Uint8Array} b @param {Uint32Array} at @param {number} stream */
function unfolded(b, at, stream) {
  const v = numberOf(b, at, stream);
  return v % 2 ? -(v + 1) / 2 : v / 2;
}

/** @param {Uint8Array} out @param {number} o @param {number} v @returns {number} where the number ends */
function putUnsigned(out, o, v) {
  for (; v >= 128; v >>>= 7) out[o++] = v | 128;
  out[o++] = v;
  return o;
}

/** @param {Uint8Array} out @param {number} o @param {number} v  may be larger than 32 bits @returns {number} where the number ends */
function putSigned(out, o, v) {
  for (; v < -64 || v >= 64; v = Math.floor(v / 128)) out[o++] = (v & 127) | 128;
  out[o++] = v & 127;
  return o;
}

/**
 * The program of a packed engine as it comes from the server: gzipped.
 * @param {ArrayBuffer} bytes
 * @returns {Promise<Uint8Array<ArrayBuffer>>}
 */
async function unpackEngine(bytes) {
  if (typeof DecompressionStream === 'undefined') throw new Error('this browser cannot unpack it; one of 2023 or later can');
  // Not through a Blob, which WebKit cannot read in a page opened from a disk.
  const { body } = new Response(bytes);
  const flat = /** @type {ReadableStream} */ (body).pipeThrough(new DecompressionStream('gzip'));
  return unpackProgram(new Uint8Array(await new Response(flat).arrayBuffer()));
}

if (typeof DedicatedWorkerGlobalScope !== 'undefined' && self instanceof DedicatedWorkerGlobalScope) {
  onmessage = (event) => {
    unpackEngine(event.data).then((program) => WebAssembly.compile(program)).then(
      (module) => postMessage({ module }),
      (error) => postMessage({ say: error instanceof Error ? error.message : String(error) }),
    );
  };
}
