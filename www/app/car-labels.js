// Room for labels in a row.

/**
 * Centres for labels of one size, each as near to where it would like to be as
 * the others allow, all inside the row. The wishes must rise.
 * @param {number[]} wishes
 * @param {number} size
 * @param {number} width of the row
 * @returns {number[]}
 */
export function spread(wishes, size, width) {
  const n = wishes.length;
  if (n * size >= width) return wishes.map((_, i) => (i + 0.5) * width / n);
  // Labels that touch move as one block, to the mean of their wishes.
  /** @type {{from: number, to: number, at: number}[]} */
  const blocks = [];
  const clampBlock = (/** @type {number} */ at, /** @type {number} */ count) => Math.min(width - count * size, Math.max(0, at));
  wishes.forEach((_, i) => {
    let block = { from: i, to: i, at: clampBlock((wishes[i] ?? 0) - size / 2, 1) };
    for (let last = blocks[blocks.length - 1]; last && last.at + (last.to - last.from + 1) * size > block.at; last = blocks[blocks.length - 1]) {
      blocks.pop();
      const count = block.to - last.from + 1;
      let sum = 0;
      for (let k = last.from; k <= block.to; k += 1) sum += (wishes[k] ?? 0) - size / 2 - (k - last.from) * size;
      block = { from: last.from, to: block.to, at: clampBlock(sum / count, count) };
    }
    blocks.push(block);
  });
  return blocks.flatMap((b) => Array.from({ length: b.to - b.from + 1 }, (_, k) => b.at + (k + 0.5) * size));
}
