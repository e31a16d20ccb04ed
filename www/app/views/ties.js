// Fine lines from each clause of the answer to the part it speaks of. Drawn
// only where the page is wide enough for them to run clear of the words.

import { setAttr, svg } from '../dom.js';
import { Ink } from './ink.js';

const LEAST_WIDTH = 760;

export class Ties {
  /** @param {HTMLElement} board holds the answer and the stage */
  constructor(board) {
    this.board = board;
    const layer = svg('g');
    this.svg = svg('svg', { class: 'ties', 'aria-hidden': 'true' }, layer);
    this.ink = new Ink(layer);
    board.append(this.svg);
  }

  /**
   * @param {{node: HTMLElement, part: import('./model.js').Part}[]} ties
   * @param {HTMLElement} stage
   * @param {Record<import('./model.js').Part, {x: number, y: number}>} spots px in the stage
   */
  draw(ties, stage, spots) {
    const board = this.board.getBoundingClientRect();
    const at = stage.getBoundingClientRect();
    this.ink.begin();
    if (board.width >= LEAST_WIDTH) {
      setAttr(this.svg, 'viewBox', `0 0 ${Math.round(board.width)} ${Math.round(board.height)}`);
      for (const { node, part } of ties) {
        const words = node.getBoundingClientRect();
        const spot = spots[part];
        const end = { x: at.left - board.left + spot.x, y: at.top - board.top + spot.y };
        const left = words.left - board.left;
        const right = left + Math.min(words.width, 420);
        const y = words.bottom - board.top + 5;
        const x = Math.min(right - 8, Math.max(left + 8, end.x));
        this.ink.path(`${part}-under`, `M${Math.round(left)} ${Math.round(y) + 0.5}H${Math.round(Math.min(right, left + 64))}`, `tie-under ${part}`);
        this.ink.path(part, `M${Math.round(Math.min(right, left + 64))} ${Math.round(y) + 0.5}H${Math.round(x)}L${Math.round(end.x * 10) / 10} ${Math.round(end.y * 10) / 10}`, `tie ${part}`);
        this.ink.draw(`${part}-end`, 'circle', { cx: end.x, cy: end.y, r: 6, class: `tie-end ${part}` });
      }
    }
    this.ink.end();
  }
}
