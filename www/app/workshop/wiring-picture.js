// A wiring drawn: strings of drivers side by side between two rails, each
// driver a frame round its coils.

import { svg } from '../dom.js';

/** @param {import('./wirings.js').Wiring} w @param {string} label */
export function wiringPicture(w, label) {
  const coilW = 22;
  const coilH = 16;
  const boxW = w.coilSeries * coilW + 14;
  const boxH = w.coilParallel * coilH + 10;
  const gap = 12;
  const width = w.series * (boxW + gap) + gap + 12;
  const height = w.parallel * (boxH + 8) + 8;
  /** @type {SVGElement[]} */
  const nodes = [];
  const wire = (/** @type {string} */ d) => nodes.push(svg('path', { class: 'wire', d }));
  for (let row = 0; row < w.parallel; row += 1) {
    const y = 8 + row * (boxH + 8) + boxH / 2;
    wire(`M6 ${y}H${6 + gap}`);
    for (let col = 0; col < w.series; col += 1) {
      const x = 6 + gap + col * (boxW + gap);
      nodes.push(svg('rect', { class: 'wire-frame', x, y: y - boxH / 2, width: boxW, height: boxH, rx: 3 }));
      for (let r = 0; r < w.coilParallel; r += 1) {
        const cy = y - boxH / 2 + 5 + coilH / 2 + r * coilH;
        wire(`M${x} ${cy}H${x + 7}`);
        for (let c = 0; c < w.coilSeries; c += 1) {
          const cx = x + 7 + c * coilW;
          // Four humps: the sign for a coil.
          wire(`M${cx} ${cy}h2${'a2.25 2.25 0 0 1 4.5 0'.repeat(4)}h2`);
        }
        wire(`M${x + boxW - 7} ${cy}H${x + boxW}`);
      }
      wire(`M${x + boxW} ${y}h${gap}`);
    }
  }
  const last = 8 + (w.parallel - 1) * (boxH + 8) + boxH / 2;
  const first = 8 + boxH / 2;
  const right = width - 6;
  wire(`M6 ${first}V${last}M${right} ${first}V${last}`);
  return svg('svg', { class: 'wiring-picture', viewBox: `0 0 ${width} ${height}`, width: width * 1.4, height: height * 1.4, role: 'img', 'aria-label': label },
    ...nodes, svg('text', { class: 'cut-number', x: 1, y: first - 4 }, '+'), svg('text', { class: 'cut-number', x: right - 2, y: first - 4 }, '−'));
}
