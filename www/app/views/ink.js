// Draws a scene again and again with the same elements: each thing drawn has a
// key, keeps its element from one drawing to the next, and goes when it is no
// longer drawn.

import { setAttr, setText, svg } from '../dom.js';

/** @typedef {keyof SVGElementTagNameMap} Tag */

export class Ink {
  /** @param {SVGGElement} layer */
  constructor(layer) {
    this.layer = layer;
    /** @type {Map<string, {node: SVGElement, round: number}>} */
    this.drawn = new Map();
    this.round = 0;
  }

  begin() {
    this.round += 1;
  }

  /**
   * @param {string} key
   * @param {Tag} tag
   * @param {Record<string, string|number|null>} attrs
   * @param {string} [text]
   * @returns {SVGElement}
   */
  draw(key, tag, attrs, text) {
    let entry = this.drawn.get(key);
    if (!entry) {
      entry = { node: svg(tag), round: 0 };
      this.drawn.set(key, entry);
      this.layer.append(entry.node);
    }
    entry.round = this.round;
    for (const [name, value] of Object.entries(attrs)) {
      setAttr(entry.node, name, typeof value === 'number' ? Math.round(value * 10) / 10 : value);
    }
    if (text !== undefined) setText(entry.node, text);
    return entry.node;
  }

  /** @param {string} key @param {string} d @param {string} kind @param {Record<string, string|number|null>} [more] */
  path(key, d, kind, more = {}) {
    this.draw(key, 'path', { d, class: kind, ...more });
  }

  /** Removes what this round did not draw. */
  end() {
    for (const [key, entry] of this.drawn) {
      if (entry.round === this.round) continue;
      entry.node.remove();
      this.drawn.delete(key);
    }
  }
}
