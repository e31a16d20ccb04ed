// The driver: chosen from a shelf, read off a data sheet, measured, and wired.

import { el, setAttr } from '../dom.js';
import { MeasurePart } from './driver-measure.js';
import { SheetPart } from './driver-sheet.js';
import { ShelfPart } from './driver-shelf.js';
import { WiringPart } from './driver-wiring.js';
import { Leaf } from './leaf.js';
import { say } from './words.js';

/** @typedef {import('../job.js').Driver} Driver */
/** @typedef {'shelf'|'sheet'|'measure'|'wiring'} Tab */

export class DriverLeaf {
  /**
   * @param {import('../store.js').Store} store
   * @param {import('../engine.js').Engine} engine
   * @param {import('../storage.js').Storage} storage
   */
  constructor(store, engine, storage) {
    this.store = store;
    this.index = 0;
    /** @type {import('../views/model.js').Model|null} */
    this.model = null;
    this.leaf = new Leaf(say('driver_title'));
    const take = (/** @type {Driver} */ d) => this.#take(d);
    const inJob = () => store.job.subs[this.index]?.driver;
    this.shelf = new ShelfPart(engine, storage, { take, inJob });
    this.wiring = new WiringPart(store);
    this.sheet = new SheetPart(engine, (d) => { take(d); this.shelf.keep(d); });
    this.measure = new MeasurePart(engine, { take, inJob });
    /** @type {Record<Tab, {root: HTMLElement}>} */
    this.parts = { shelf: this.shelf, sheet: this.sheet, measure: this.measure, wiring: this.wiring };
    this.said = el('p', { class: 'told', role: 'status' });
    this.tabs = el('nav', { class: 'steps', 'aria-label': say('driver_title') }, ...(/** @type {Tab[]} */ (Object.keys(this.parts))).map((tab) => el('button', { type: 'button', 'data-tab': tab, onclick: () => this.#turn(tab) }, say(`tab_${tab}`))));
    this.leaf.extras.append(el('button', { type: 'button', class: 'quiet', onclick: () => { if (store.undo()) this.said.textContent = say('undone'); } }, say('undo')));
    this.leaf.root.insertBefore(this.tabs, this.leaf.body);
    this.leaf.body.append(this.said, ...Object.values(this.parts).map((p) => p.root));
    this.#turn('shelf');
  }

  /** @param {number} index of the sub @param {Tab} [tab] */
  open(index, tab = 'shelf') {
    this.index = index;
    this.#turn(tab);
    this.leaf.show();
    if (this.model) this.update(this.model);
  }

  /** @param {import('../views/model.js').Model} model */
  update(model) {
    this.model = model;
    if (!this.leaf.open) return;
    this.shelf.update(model);
    this.measure.update(model);
    this.wiring.update(model, this.index);
  }

  /** @param {Tab} tab */
  #turn(tab) {
    for (const [name, part] of Object.entries(this.parts)) part.root.hidden = name !== tab;
    for (const b of this.tabs.children) setAttr(b, 'aria-current', b.getAttribute('data-tab') === tab ? 'true' : 'false');
    this.leaf.body.scrollTop = 0;
  }

  /** @param {Driver} driver */
  #take(driver) {
    this.store.endDrag();
    this.store.set(`/subs/${this.index}/driver`, driver, { label: driver.name });
    this.said.textContent = say('driver_taken', { name: driver.name });
    this.leaf.body.scrollTop = 0;
  }
}
