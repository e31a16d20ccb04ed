// Paints the numbers of a cut through the car: smooth between the points the
// engine gave, in a few shades with a line where one turns into the next.

/** @typedef {import('./palette.js').Rgb} Rgb */

/**
 * One room's numbers; metres.
 * @typedef {object} Tile
 * @property {string} room
 * @property {number} x0_m @property {number} x1_m along the car
 * @property {number} v0_m @property {number} v1_m upward or to the right
 * @property {number} columns @property {number} rows
 * @property {ArrayLike<number>} values row by row from the front, from the floor or the left
 */

/**
 * Values with those outside replaced by their nearest neighbours inside, so
 * that shades run on to the edge of the room.
 * @param {Tile} tile
 * @param {number} outside mark of a point outside
 * @returns {Float64Array}
 */
export function filled({ values, columns, rows }, outside) {
  let now = Float64Array.from(values, (v) => (v === outside || !Number.isFinite(v) ? NaN : v));
  for (let round = 0; round < columns + rows; round += 1) {
    const next = now.slice();
    let missing = 0;
    for (let r = 0; r < rows; r += 1) {
      for (let c = 0; c < columns; c += 1) {
        const k = r * columns + c;
        if (!Number.isNaN(/** @type {number} */ (now[k]))) continue;
        let sum = 0;
        let n = 0;
        for (const [dr, dc] of /** @type {const} */ ([[0, -1], [0, 1], [-1, 0], [1, 0]])) {
          const v = r + dr >= 0 && r + dr < rows && c + dc >= 0 && c + dc < columns ? now[k + dr * columns + dc] : NaN;
          if (v !== undefined && !Number.isNaN(v)) { sum += v; n += 1; }
        }
        if (n) next[k] = sum / n;
        else missing += 1;
      }
    }
    now = next;
    if (!missing) break;
  }
  return now;
}

/**
 * The value at a place, straight between the middles of the cells.
 * @param {Float64Array} v @param {number} columns @param {number} rows
 * @param {number} u 0 to 1 along @param {number} w 0 to 1 up
 */
export function between(v, columns, rows, u, w) {
  const x = Math.min(columns - 1, Math.max(0, u * columns - 0.5));
  const y = Math.min(rows - 1, Math.max(0, w * rows - 0.5));
  const c = Math.min(columns - 2, Math.floor(x));
  const r = Math.min(rows - 2, Math.floor(y));
  const at = (/** @type {number} */ dr, /** @type {number} */ dc) => /** @type {number} */ (v[(r + dr) * columns + c + dc]);
  const fx = x - c;
  const fy = y - r;
  return (at(0, 0) * (1 - fx) + at(0, 1) * fx) * (1 - fy) + (at(1, 0) * (1 - fx) + at(1, 1) * fx) * fy;
}

/**
 * @typedef {object} Painting
 * @property {Tile[]} tiles
 * @property {number} outside
 * @property {(x: number, v: number) => {x: number, y: number}} at millimetres to px
 * @property {[x: number, v: number][][]} rooms outlines that the shades keep within, mm, one for each tile
 * @property {(value: number) => number} shade number of the shade of a value
 * @property {Rgb[]} shades
 * @property {Rgb} line between shades
 * @property {boolean} [nodes] a bold line where the value changes its sign
 */

/**
 * @param {HTMLCanvasElement} canvas
 * @param {number} width px @param {number} height px
 * @param {Painting} p
 */
export function paint(canvas, width, height, p) {
  const k = Math.min(2, window.devicePixelRatio || 1);
  const w = Math.round(width * k);
  const h = Math.round(height * k);
  if (canvas.width !== w || canvas.height !== h) {
    canvas.width = w;
    canvas.height = h;
  }
  const ctx = canvas.getContext('2d');
  if (!ctx) return;
  ctx.setTransform(1, 0, 0, 1, 0, 0);
  ctx.clearRect(0, 0, w, h);
  p.tiles.forEach((tile, i) => {
    const a = p.at(tile.x0_m * 1000, tile.v1_m * 1000);
    const b = p.at(tile.x1_m * 1000, tile.v0_m * 1000);
    const image = shaded(tile, Math.max(2, Math.round((b.x - a.x) * k)), Math.max(2, Math.round((b.y - a.y) * k)), k, p);
    const outline = p.rooms[i] ?? [];
    ctx.save();
    ctx.beginPath();
    outline.forEach(([x, v], n) => {
      const q = p.at(x, v);
      if (n) ctx.lineTo(q.x * k, q.y * k);
      else ctx.moveTo(q.x * k, q.y * k);
    });
    ctx.closePath();
    ctx.clip();
    ctx.drawImage(image, Math.round(a.x * k), Math.round(a.y * k));
    ctx.restore();
  });
}

/** @param {Tile} tile @param {number} w @param {number} h @param {number} k @param {Painting} p */
function shaded(tile, w, h, k, p) {
  const sheet = document.createElement('canvas');
  sheet.width = w;
  sheet.height = h;
  const ctx = /** @type {CanvasRenderingContext2D} */ (sheet.getContext('2d'));
  const image = ctx.createImageData(w, h);
  const v = filled(tile, p.outside);
  const step = new Uint8Array(w * h);
  const sign = p.nodes ? new Int8Array(w * h) : null;
  for (let y = 0; y < h; y += 1) {
    for (let x = 0; x < w; x += 1) {
      const value = between(v, tile.columns, tile.rows, (x + 0.5) / w, 1 - (y + 0.5) / h);
      step[y * w + x] = p.shade(value);
      if (sign) sign[y * w + x] = value < 0 ? -1 : 1;
    }
  }
  const thin = Math.max(1, Math.round(k * 0.75));
  const bold = Math.round(2 * k);
  for (let y = 0; y < h; y += 1) {
    for (let x = 0; x < w; x += 1) {
      const at = y * w + x;
      const left = at - Math.min(x, thin);
      const up = at - Math.min(y, thin) * w;
      const turns = step[left] !== step[at] || step[up] !== step[at];
      const node = sign && (sign[at - Math.min(x, bold)] !== sign[at] || sign[at - Math.min(y, bold) * w] !== sign[at]);
      const rgb = node || turns ? p.line : /** @type {Rgb} */ (p.shades[step[at] ?? 0] ?? p.line);
      // Lines between shades are half as strong as a node line.
      const base = /** @type {Rgb} */ (p.shades[step[at] ?? 0] ?? rgb);
      const mix = node ? 1 : turns ? 0.4 : 0;
      for (let c = 0; c < 3; c += 1) image.data[at * 4 + c] = (base[c] ?? 0) * (1 - mix) + (rgb[c] ?? 0) * mix;
      image.data[at * 4 + 3] = 255;
    }
  }
  ctx.putImageData(image, 0, 0);
  return sheet;
}
