// The sheet beside or below the drawing: the controls of the part that was
// touched.

import { el, setText } from '../dom.js';
import { say, sayOf } from '../words.js';
import { amplifierSheet } from './sheet-amplifier.js';
import { boxSheet } from '../workshop/box-sheet.js';
import { cabinSheet } from './sheet-cabin.js';
import { doorsSheet } from './sheet-doors.js';
import { seatsSheet } from './sheet-seats.js';
import { subSheet } from './sheet-sub.js';
import { subPicker } from './sub-picker.js';
import { PARTS } from './model.js';

/** @typedef {import('./model.js').Model} Model */
/** @typedef {import('./model.js').Part} Part */

/**
 * What a sheet's fields hang on: while it stays the same, they are kept and
 * only shown anew.
 * @param {Model} model
 */
function structure({ job, system }) {
  const filters = (/** @type {import('../job.js').Filter[]} */ list) => list.map((f) => f.kind + f.shape).join();
  return [system, job.car.body, job.car.cabin.shape, job.car.cabin.stations?.length, job.car.seats.map((s) => s.id).join(),
    job.subs.map((s) => s.id + s.box.type + filters(s.channel.filters)).join('|'), filters(job.doors.channel.filters)].join('/');
}

/** Parts of which there is one for each sub. @type {Part[]} */
const OF_SUB = ['box', 'sub', 'amplifier'];

export class SheetView {
  /**
   * @param {import('../store.js').Store} store
   * @param {(part: Part|null) => void} onChange which sheet is open
   */
  constructor(store, onChange) {
    this.store = store;
    this.onChange = onChange;
    /** What else can be done about a part, above its fields. @type {(part: Part) => HTMLElement|null} */
    this.tools = () => null;
    /** @type {Part|null} */
    this.part = null;
    /** Which sub the sheets and curves are about. */
    this.sub = 0;
    /** Called when that is another one. */
    this.onSub = () => {};
    /** @type {Model|null} */
    this.model = null;
    /** @type {import('./model.js').BodyPreset[]} */
    this.bodies = [];
    /** @type {{key: string, name: string}[]} */
    this.finishes = [];
    /** @type {import('./fields.js').Field[]} */
    this.fields = [];
    this.made = '';
    this.title = el('h2', { tabindex: -1 });
    this.closer = el('button', { type: 'button', class: 'quiet close', onclick: () => this.close() }, say('close'));
    this.body = el('div', { class: 'sheet-body' });
    this.key = el('p', { class: 'assumed-key' }, el('span', { class: 'assumed', 'aria-hidden': 'true' }), ' ', say('assumed_key'));
    this.step = el('nav', { class: 'steps', 'aria-label': say('sheet_region') }, ...PARTS.map((part) => el('button', { type: 'button', 'data-part': part, onclick: () => this.open(part, false) }, sayOf('part', part))));
    this.root = el('aside', { class: 'sheet', id: 'part-sheet', 'aria-label': say('sheet_region'), hidden: true }, el('header', {}, this.title, this.closer), this.step, this.key, this.body);
    this.root.addEventListener('keydown', (e) => { if (e.key === 'Escape' && !(e.target instanceof HTMLInputElement && e.target.type === 'text')) this.close(); });
  }

  /** What the engine's greeting adds. @param {import('./model.js').BodyPreset[]} bodies @param {{key: string, name: string}[]} finishes */
  know(bodies, finishes) {
    this.bodies = bodies;
    this.finishes = finishes;
    this.made = '';
    if (this.model) this.update(this.model);
  }

  /** @param {Part} part @param {boolean} [focus] */
  open(part, focus = true) {
    if (!this.root.contains(document.activeElement)) this.opener = document.activeElement;
    this.part = part;
    this.root.hidden = false;
    this.made = '';
    if (this.model) this.update(this.model);
    this.root.scrollTop = 0;
    this.body.scrollTop = 0;
    if (focus) this.title.focus({ preventScroll: true });
    this.onChange(part);
  }

  close() {
    const { part } = this;
    this.part = null;
    this.root.hidden = true;
    this.onChange(null);
    // What opened it may have been out of sight until now.
    const opener = this.opener instanceof HTMLElement && this.opener !== document.body ? this.opener : document.querySelector(`.part-label[data-part="${part}"]`);
    if (opener instanceof HTMLElement) opener.focus({ preventScroll: true });
  }

  /** @param {Model} model */
  update(model) {
    this.model = model;
    const { part } = this;
    if (!part) return;
    this.sub = Math.max(0, Math.min(this.sub, model.job.subs.length - 1));
    const made = `${part}/${this.sub}/${structure(model)}`;
    if (made !== this.made) {
      this.made = made;
      setText(this.title, sayOf('part', part));
      this.closer.setAttribute('aria-label', say('close_sheet', { part: sayOf('part', part).toLowerCase() }));
      this.fields = this.#make(part, model);
      const tools = this.tools(part);
      const picker = OF_SUB.includes(part) && model.job.subs.length ? subPicker(this.store, this.sub, (i) => this.#choose(i)) : null;
      this.body.replaceChildren(...[picker, tools].filter((n) => n !== null), ...this.fields.map((f) => f.root));
      for (const b of this.step.children) b.setAttribute('aria-current', b.getAttribute('data-part') === part ? 'true' : 'false');
    }
    for (const f of this.fields) f.update(model);
    this.key.hidden = !this.body.querySelector('.assumed:not([hidden])');
  }

  /** @param {number} sub */
  #choose(sub) {
    this.sub = sub;
    this.onSub();
  }

  /** @param {Part} part @param {Model} model */
  #make(part, model) {
    switch (part) {
      case 'box': return boxSheet(this.store, model, this.sub);
      case 'sub': return subSheet(this.store, model, this.sub);
      case 'amplifier': return amplifierSheet(this.store, model, this.sub);
      case 'doors': return doorsSheet(this.store);
      case 'seats': return seatsSheet(this.store, model);
      default: return cabinSheet(this.store, model, this.bodies, this.finishes);
    }
  }
}
