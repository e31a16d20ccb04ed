// Puts the workshop on the page: tools in the sheets of the parts that they
// belong to, and what to do about a limit under the answer.

import { el } from '../dom.js';
import { Compare } from './compare.js';
import { Designer } from './designer.js';
import { DriverLeaf } from './driver-leaf.js';
import { Joining } from './joining.js';
import { Remedies } from './remedies.js';
import { say } from './words.js';

/**
 * @typedef {import('../views/model.js').Model} Model
 * @typedef {import('../views/model.js').Part} Part
 *
 * @typedef {object} MountParts
 * @property {import('../store.js').Store} store
 * @property {import('../engine.js').Engine} engine
 * @property {import('../storage.js').Storage} storage
 * @property {import('../views/page.js').Page} page
 */

/**
 * @param {MountParts} parts
 * @returns {{update: (model: Model) => void}} update shows what is open in the light of a new moment
 */
export function mountWorkshop({ store, engine, storage, page }) {
  const remedies = new Remedies(store, engine);
  page.answer.root.append(remedies.root);

  /** Made when first asked for: most visits need none of them. @type {Map<string, {update: (m: Model) => void}>} */
  const made = new Map();
  /** @type {Model|null} */
  let last = null;
  /** @template {{update: (m: Model) => void}} T @param {string} key @param {() => T} make @returns {T} */
  const once = (key, make) => {
    let tool = /** @type {T|undefined} */ (made.get(key));
    if (!tool) {
      tool = make();
      made.set(key, tool);
      if (last) tool.update(last);
    }
    return tool;
  };
  const tool = (/** @type {Parameters<typeof say>[0]} */ words, /** @type {() => void} */ open) => el('button', { type: 'button', 'aria-haspopup': 'dialog', onclick: open }, say(words));
  const compare = () => once('compare', () => new Compare(store, engine, storage));
  const driver = () => once('driver', () => new DriverLeaf(store, engine, storage));
  const design = () => tool('offer_design', () => once('design', () => new Designer(store, engine)).open(0));
  const join = () => tool('offer_join', () => once('join', () => new Joining(store, engine)).open());
  const side = () => tool('offer_compare', () => compare().open());

  /** @type {Record<Part, () => HTMLElement[]>} */
  const toolsOf = {
    box: () => [design(), side()],
    sub: () => [tool('offer_driver', () => driver().open(0)), tool('offer_wiring', () => driver().open(0, 'wiring'))],
    amplifier: () => [join()], doors: () => [join()], seats: () => [side()], cabin: () => [],
  };
  page.sheet.tools = (part) => {
    const tools = toolsOf[part]();
    return tools.length ? el('div', { class: 'tools', role: 'group', 'aria-label': say('offers') }, ...tools) : null;
  };

  return {
    update(model) {
      last = model;
      remedies.update(model);
      for (const t of made.values()) t.update(model);
    },
  };
}
