// Fine lines from each clause of the answer to the part it speaks of. Drawn
// only where the page is wide enough for them to run clear of the words.

import { setAttr, svg } from '../dom.js';
import { Ink } from './ink.js';

const LEAST_WIDTH = 760;
/** Radius of the ring round a part, px. */
const RING = 6;

export class Ties {
  /** @param {HTMLElement} board holds the answer and the stage */
  constructor(board) {
    this.board = board;
    /** Where the clauses stand, px in the board. @type {{part: import('./model.js').Part, left: number, right: number, bottom: number}[]} */
    this.words = [];
    this.width = 0;
    this.stageAt = { x: 0, y: 0 };
    const layer = svg('g');
    this.svg = svg('svg', { class: 'ties', 'aria-hidden': 'true' }, layer);
    this.ink = new Ink(layer);
    board.append(this.svg);
  }

  /**
   * Asks the page where things stand. Costs a layout: only in a frame in which
   * the words or the page's width have changed.
   * @param {{node: HTMLElement, part: import('./model.js').Part}[]} ties
   * @param {HTMLElement} stage
   */
  measure(ties, stage) {
    const board = this.board.getBoundingClientRect();
    this.width = board.width;
    if (this.width < LEAST_WIDTH) return;
    const at = stage.getBoundingClientRect();
    this.stageAt = { x: at.left - board.left, y: at.top - board.top };
    setAttr(this.svg, 'viewBox', `0 0 ${Math.round(board.width)} ${Math.round(board.height)}`);
    this.words = ties.map(({ node, part }) => {
      const words = node.getBoundingClientRect();
      return { part, left: words.left - board.left, right: words.left - board.left + Math.min(words.width, 420), bottom: words.bottom - board.top };
    });
  }

  /** @param {Record<import('./model.js').Part, {x: number, y: number}>} spots px in the stage */
  draw(spots) {
    this.ink.begin();
    if (this.width >= LEAST_WIDTH) {
      for (const { part, left, right, bottom } of this.words) {
        const spot = spots[part];
        const end = { x: this.stageAt.x + spot.x, y: this.stageAt.y + spot.y };
        const y = bottom + 5;
        const x = Math.min(right - 8, Math.max(left + 8, end.x));
        this.ink.path(`${part}-under`, `M${Math.round(left)} ${Math.round(y) + 0.5}H${Math.round(Math.min(right, left + 64))}`, `tie-under ${part}`);
        // The line stops at the ring round the part.
        const far = Math.hypot(end.x - x, end.y - y) || 1;
        const stop = { x: end.x - (end.x - x) * RING / far, y: end.y - (end.y - y) * RING / far };
        this.ink.path(part, `M${Math.round(Math.min(right, left + 64))} ${Math.round(y) + 0.5}H${Math.round(x)}L${Math.round(stop.x * 10) / 10} ${Math.round(stop.y * 10) / 10}`, `tie ${part}`);
        this.ink.draw(`${part}-end`, 'circle', { cx: end.x, cy: end.y, r: RING, class: `tie-end ${part}` });
      }
    }
    this.ink.end();
  }
}
