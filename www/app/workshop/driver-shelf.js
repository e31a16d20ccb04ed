// The shelf: typical drivers of each size, and the reader's own, kept on this
// machine.

import { el } from '../dom.js';
import { pickFile, readText, saveFile } from '../files.js';
import { formatNumber, formatWithUnit } from '../format.js';
import { conePicture } from './cone-picture.js';
import { DriverForm } from './driver-form.js';
import { say } from './words.js';

/**
 * @typedef {import('../job.js').Driver} Driver
 * @typedef {import('./replies.js').ShelfEntry} ShelfEntry
 * @typedef {import('./replies.js').Kept} Kept
 */

/** Where the reader's own drivers are kept. */
export const KEPT_SHELF = 'shelf';

export class ShelfPart {
  /**
   * @param {import('../engine.js').Engine} engine
   * @param {import('../storage.js').Storage} storage
   * @param {{take: (driver: Driver) => void, inJob: () => Driver|undefined}} how
   */
  constructor(engine, storage, how) {
    this.engine = engine;
    this.storage = storage;
    this.how = how;
    /** @type {ShelfEntry[]} */
    this.typical = [];
    /** @type {Kept[]} */
    this.own = [];
    this.size = 0;
    /** @type {import('../units.js').System} */
    this.system = 'metric';
    /** The one being edited; null for a new one. @type {string|null} */
    this.editing = null;

    this.said = el('div', { class: 'told', role: 'status' });
    this.filter = el('select', { onchange: () => { this.size = Number(this.filter.value); this.#draw(); } });
    this.ownList = el('ul', { class: 'shelf' });
    this.typicalList = el('ul', { class: 'shelf' });
    this.form = new DriverForm((d) => this.#edited(d), () => this.#endEdit());
    const button = (/** @type {Parameters<typeof say>[0]} */ words, /** @type {() => void} */ act) => el('button', { type: 'button', onclick: act }, say(words));
    this.lists = el('div', {}, el('label', { class: 'inline' }, el('span', {}, say('shelf_filter')), ' ', this.filter),
      el('h3', {}, say('shelf_own')), this.ownList,
      el('div', { class: 'tools' }, button('edit_new', () => this.#edit(null)), button('shelf_keep', () => { const d = how.inJob(); if (d) this.keep(d); }), button('shelf_open', () => this.#open()), button('shelf_save', () => this.#save())),
      el('h3', {}, say('shelf_typical')), el('p', { class: 'told' }, say('shelf_typical_note')), this.typicalList);
    this.root = el('div', {}, this.said, this.form.root, this.lists);
    this.ready = this.#load();
  }

  async #load() {
    const kept = await this.storage.get(KEPT_SHELF).catch(() => undefined);
    if (Array.isArray(kept)) this.own = kept;
    try {
      const { reply } = await this.engine.call('shelf', {});
      this.typical = /** @type {ShelfEntry[]} */ (reply.drivers).filter((d) => d.kind !== 'door');
    } catch (error) {
      this.#say(say('trouble', { why: error instanceof Error ? error.message : String(error) }));
    }
    this.#draw();
  }

  /** @param {import('../views/model.js').Model} model */
  update(model) {
    if (model.system !== this.system) {
      this.system = model.system;
      this.#draw();
    }
    const name = this.how.inJob()?.name;
    for (const b of this.root.querySelectorAll('.shelf li')) b.classList.toggle('in-use', b.getAttribute('data-name') === name);
  }

  /** @param {...string} lines */
  #say(...lines) {
    this.said.replaceChildren(...lines.filter(Boolean).map((l) => el('p', {}, l)));
  }

  /** Keeps a driver on this machine. @param {Driver} driver */
  async keep(driver) {
    await this.ready;
    const plain = { ...driver };
    delete plain.typical;
    this.own = [...this.own, { id: `${Date.now()}-${this.own.length}`, driver: plain }];
    await this.#keepAll(say('shelf_kept', { name: driver.name }));
  }

  /** @param {string} words */
  async #keepAll(words) {
    this.#draw();
    try {
      await this.storage.put(KEPT_SHELF, this.own);
      this.#say(words);
    } catch (error) {
      this.#say(error instanceof Error ? error.message : String(error));
    }
  }

  #draw() {
    const sizes = [...new Set([...this.typical.map((t) => t.driver), ...this.own.map((k) => k.driver)].map((d) => d.size_in ?? 0).filter((s) => s > 0))].sort((a, b) => a - b);
    if (!sizes.includes(this.size)) this.size = 0;
    this.filter.replaceChildren(el('option', { value: 0 }, say('shelf_all')), ...sizes.map((s) => el('option', { value: s, selected: s === this.size }, formatWithUnit(s, 'inches', this.system))));
    const shown = (/** @type {Driver} */ d) => this.size === 0 || d.size_in === this.size;
    const own = this.own.filter((k) => shown(k.driver));
    this.ownList.replaceChildren(...(own.length ? own.map((k) => this.#row(k.driver, '', k)) : [el('li', { class: 'told none' }, say('shelf_none'))]));
    this.typicalList.replaceChildren(...this.typical.filter((t) => shown(t.driver)).map((t) => this.#row(t.driver, t.build ?? '', null)));
  }

  /** @param {Driver} d @param {string} build @param {Kept|null} kept */
  #row(d, build, kept) {
    const { system } = this;
    const known = (/** @type {number|null|undefined} */ v, /** @type {import('../units.js').QuantityName} */ q) => (v ? formatWithUnit(v, q, system) : '–');
    const more = [d.xmax_mm ? say('shelf_xmax', { v: formatWithUnit(d.xmax_mm, 'fine_mm', system) }) : '', d.power_w ? formatWithUnit(d.power_w, 'watts', system) : '', d.price ? say('shelf_price', { v: formatNumber(d.price, 2) }) : '', build].filter(Boolean);
    return el('li', { 'data-name': d.name, class: this.how.inJob()?.name === d.name ? 'in-use' : null },
      conePicture(d),
      el('div', { class: 'shelf-words' }, el('b', {}, d.name), ' ', el('i', { class: 'in-use-mark' }, say('shelf_in_use')),
        el('p', { class: 'told' }, say('shelf_line', { fs: known(d.fs_hz, 'fine_hz'), vas: vasWords(d, system), qts: qtsWords(d) })), el('p', { class: 'told' }, more.join(', '))),
      el('div', { class: 'shelf-acts' }, el('button', { type: 'button', class: 'go', 'aria-label': say('shelf_take', { name: d.name }), onclick: () => this.how.take(d) }, say('apply')),
        ...(kept ? [el('button', { type: 'button', class: 'quiet', 'aria-label': say('shelf_edit', { name: d.name }), onclick: () => this.#edit(kept) }, '✎'),
          el('button', { type: 'button', class: 'quiet', 'aria-label': say('shelf_drop', { name: d.name }), onclick: () => this.#drop(kept) }, '×')] : [])));
  }

  /** @param {Kept} kept */
  #drop(kept) {
    this.own = this.own.filter((k) => k.id !== kept.id);
    this.#keepAll(say('shelf_dropped', { name: kept.driver.name }));
    this.filter.focus();
  }

  /** @param {Kept|null} kept */
  #edit(kept) {
    this.editing = kept?.id ?? null;
    this.lists.hidden = true;
    this.form.show(kept?.driver ?? { name: '' }, say(kept ? 'edit_title' : 'edit_new'), this.system);
  }

  #endEdit() {
    this.form.root.hidden = true;
    this.lists.hidden = false;
    this.filter.focus();
  }

  /** @param {Driver} driver */
  async #edited(driver) {
    this.#endEdit();
    if (this.editing === null) await this.keep(driver);
    else {
      this.own = this.own.map((k) => (k.id === this.editing ? { ...k, driver } : k));
      await this.#keepAll(say('shelf_kept', { name: driver.name }));
    }
    const notes = await checkDriver(this.engine, driver);
    if (notes.length) this.#say(say('shelf_kept', { name: driver.name }), ...notes.map((n) => n.say));
  }

  async #open() {
    const file = await pickFile('.csv,text/csv,text/plain');
    if (!file) return;
    try {
      const { reply } = await this.engine.call('shelf', { csv: await readText(file) });
      const read = /** @type {ShelfEntry[]} */ (reply.drivers);
      this.own = [...this.own, ...read.map((e, i) => ({ id: `${Date.now()}-${i}`, driver: e.driver }))];
      await this.#keepAll('');
      this.#say(say('shelf_read', { n: read.length }), ...reply.notes, ...read.flatMap((e) => e.notes.filter((n) => n.level !== 'note').map((n) => `${e.driver.name}: ${n.say}`)));
    } catch (error) {
      this.#say(error instanceof Error ? error.message : String(error));
    }
  }

  async #save() {
    try {
      const { reply } = await this.engine.call('shelf', { drivers: this.own.map((k) => k.driver) });
      saveFile('shelf.csv', reply.csv ?? '', 'text/csv');
    } catch (error) {
      this.#say(error instanceof Error ? error.message : String(error));
    }
  }
}

/** @param {Driver} d */
function qtsWords(d) {
  const q = d.qts ?? (d.qes && d.qms ? 1 / (1 / d.qes + 1 / d.qms) : undefined);
  return q ? formatNumber(q, 2) : '–';
}

/**
 * Vas as stated, or from moving mass, area and resonance: rho c2 Sd2 Cms (Small,
 * JAES 20 (1972) 383), in air of 20 °C and 50 %.
 * @param {Driver} d @param {import('../units.js').System} system
 */
function vasWords(d, system) {
  const cms = d.cms_mm_n ? d.cms_mm_n * 1e-3 : d.mms_g && d.fs_hz ? 1 / ((2 * Math.PI * d.fs_hz) ** 2 * d.mms_g * 1e-3) : 0;
  const litres = d.vas_l ?? (d.sd_cm2 && cms ? 1.1993 * 343.99 ** 2 * (d.sd_cm2 * 1e-4) ** 2 * cms * 1e3 : undefined);
  return litres ? formatWithUnit(litres, 'litres', system) : '–';
}

/**
 * What the engine says of a driver: it is written out and read back as a shelf.
 * @param {import('../engine.js').Engine} engine
 * @param {Driver} driver
 * @returns {Promise<import('./replies.js').DriverSay[]>}
 */
export async function checkDriver(engine, driver) {
  try {
    const csv = (await engine.call('shelf', { drivers: [driver] })).reply.csv;
    const { reply } = await engine.call('shelf', { csv });
    return /** @type {ShelfEntry[]} */ (reply.drivers)[0]?.notes.filter((n) => n.level !== 'note') ?? [];
  } catch (error) {
    return [{ key: '', level: 'error', say: error instanceof Error ? error.message : String(error) }];
  }
}
