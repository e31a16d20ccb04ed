// A quarter-wave line in section: its lanes folded beside each other along the
// longer side of the box, with dividers, tapers, fibre, cone and mouth.

import { driverSection } from '../car-box.js';
import { rect } from './box-section.js';
import { foldLine, lineLength, onLine } from './box-geometry.js';

/**
 * @typedef {import('./box-section.js').Point} Point
 * @typedef {import('./box-section.js').Cutter} Cutter
 * @typedef {import('./box-geometry.js').Lane} Lane
 */

/** @param {Cutter} cut */
export function drawLine(cut) {
  cut.turnLong();
  const { t, input } = cut;
  const pieces = input.box.line ?? [];
  const { third } = cut.size;
  // As many lanes as the box is long enough for, and a box as long as they are.
  const most = Math.max(1, cut.size.along - 2 * t);
  const room = lineLength(pieces) / Math.max(1, Math.ceil(lineLength(pieces) / most - 1e-9));
  const along = room + 2 * t;
  const { lanes, across } = foldLine(pieces, room, Math.max(1, third - 2 * t), t);
  cut.size = { along, across: across + 2 * t, third };
  cut.shell();
  let upper = t;
  for (const [i, lane] of lanes.entries()) {
    const lower = upper + Math.max(lane.fromWidth, lane.toWidth);
    const side = (/** @type {Point} */ p, /** @type {number} */ w, /** @type {1|-1} */ s) => /** @type {Point} */ ([t + p[0], t + p[1] + s * w / 2]);
    if (Math.abs(lane.fromWidth - lane.toWidth) > 1) {
      for (const s of /** @type {const} */ ([1, -1])) cut.add('port', [side(lane.from, lane.fromWidth, s), side(lane.to, lane.toWidth, s)]);
    }
    stuff(cut, lane, i, lanes.length);
    const next = lanes[i + 1];
    if (next) {
      // The divider leaves the fold open: as wide as the line is there.
      const open = Math.min(room * 0.45, Math.max(lane.toWidth, 20));
      const turn = lane.to[0] + t;
      const early = turn < t + room / 2;
      cut.add('panel', rect(early ? turn + open : turn - open, lower, early ? along - t : t, lower + t), true);
    } else {
      const mouth = t + lane.to[1];
      cut.add('port_air', rect(along - t, mouth - lane.toWidth / 2, along, mouth + lane.toWidth / 2), true);
    }
    upper = lower + t;
  }
  cut.add('centre', lanes.flatMap((l) => /** @type {Point[]} */ ([[t + l.from[0], t + l.from[1]], [t + l.to[0], t + l.to[1]]])));
  const share = (input.box.tap_mm ?? 0) / Math.max(1, lineLength(pieces));
  const tap = onLine(lanes, share);
  const inFirstHalf = share * lanes.length < lanes.length / 2 && lanes.length > 1;
  coneInSide(cut, t + tap[0], inFirstHalf ? 0 : cut.size.across);
}

/** A cone in the outer wall at an edge of the section. @param {Cutter} cut @param {number} at along @param {number} edge across */
function coneInSide(cut, at, edge) {
  const parts = driverSection(cut.driver);
  const half = cut.driver.outside / 2;
  const middle = Math.min(Math.max(at, half), Math.max(half, cut.size.along - half));
  const way = edge === 0 ? -1 : 1;
  const to = (/** @type {[number, number]} */ [u, v]) => /** @type {Point} */ ([middle + v, edge + way * u]);
  cut.add('motor', parts.basket.map(to));
  cut.add('cone', parts.cone.map(to));
  cut.add('cone', parts.flange.map(to));
}

/** Fibre in a lane. @param {Cutter} cut @param {Lane} lane @param {number} i @param {number} of */
function stuff(cut, lane, i, of) {
  const pieces = cut.input.box.line ?? [];
  const total = lineLength(pieces);
  const at = (/** @type {number} */ share) => cut.t + lane.from[0] + (lane.to[0] - lane.from[0]) * share;
  let start = 0;
  for (const piece of pieces) {
    const from = Math.max(0, start / total * of - i);
    const to = Math.min(1, (start + piece.length_mm) / total * of - i);
    start += piece.length_mm;
    if (piece.stuffing > 0 && to > from) cut.fibre(Math.min(at(from), at(to)), Math.max(at(from), at(to)), cut.t + lane.from[1], Math.min(lane.fromWidth, lane.toWidth));
  }
}
