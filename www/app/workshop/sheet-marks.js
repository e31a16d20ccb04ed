// The pasted text with what was read from it marked, as pieces. Pure.

/**
 * @typedef {object} Piece
 * @property {string} text
 * @property {'sure'|'doubtful'|'unread'|'plain'} kind
 * @property {string} [key]
 */

/**
 * @param {string} text
 * @param {{key: string, source: string, line: number, sure: boolean}[]} readings lines count from 1
 * @param {{number: number}[]} unread lines of which nothing was made
 * @returns {Piece[]}
 */
export function markedText(text, readings, unread) {
  const strange = new Set(unread.map((l) => l.number));
  /** @type {Piece[]} */
  const out = [];
  const lines = text.split(/\r\n|\r|\n/u);
  lines.forEach((line, i) => {
    const own = readings.filter((r) => r.line === i + 1 && r.source !== '');
    /** @type {{from: number, to: number, r: typeof own[number]}[]} */
    const spans = [];
    for (const r of own) {
      let from = line.indexOf(r.source);
      // The same words twice on a line belong to two readings.
      while (from >= 0 && spans.some((s) => from < s.to && from + r.source.length > s.from)) from = line.indexOf(r.source, from + 1);
      if (from >= 0) spans.push({ from, to: from + r.source.length, r });
    }
    spans.sort((a, b) => a.from - b.from);
    let at = 0;
    const plain = strange.has(i + 1) && own.length === 0 ? 'unread' : 'plain';
    for (const s of spans) {
      if (s.from > at) out.push({ text: line.slice(at, s.from), kind: 'plain' });
      out.push({ text: line.slice(s.from, s.to), kind: s.r.sure ? 'sure' : 'doubtful', key: s.r.key });
      at = s.to;
    }
    if (at < line.length) out.push({ text: line.slice(at), kind: plain });
    if (i < lines.length - 1) out.push({ text: '\n', kind: 'plain' });
  });
  return out;
}

/**
 * Which values a sentence about a contradiction speaks of, by their labels.
 * @param {string} sentence
 * @param {string} key the value that the sentence is put at
 * @param {{key: string}[]} readings
 * @param {(key: string) => string} label
 * @returns {string[]} keys
 */
export function spokenOf(sentence, key, readings, label) {
  const words = new Set(sentence.split(/[^\p{L}\p{N}]+/u));
  return [...new Set(readings.map((r) => r.key))].filter((k) => k === key || words.has(label(k)));
}
