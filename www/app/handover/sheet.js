// The job sheet: what was agreed, what to expect, how it is built and set.
// It stands on the page like paper and prints on A4 and Letter.

import { el, setText } from '../dom.js';
import { locale } from '../format.js';
import { agreedPart, assumptionsPart, carPart, carePart, cautionsPart, responsePart, settingsPart, systemPart, workshopPart } from './sheet-parts.js';
import { say } from './words.js';

/** @typedef {import('../engine.js').Engine} Engine */
/** @typedef {import('../job.js').Job} Job */
/** @typedef {'customer'|'workshop'|'both'} Reader */

const MATERIALS = /** @type {const} */ (['mdf', 'birch_ply', 'chipboard', 'osb']);
const date = new Intl.DateTimeFormat(locale, { dateStyle: 'long' });

export class JobSheet {
  /**
   * @param {Engine} engine
   * @param {import('../units.js').System} system
   * @param {() => void} onClose
   */
  constructor(engine, system, onClose) {
    this.engine = engine;
    this.system = system;
    this.onClose = onClose;
    /** @type {Reader} */
    this.reader = 'both';
    this.material = 'mdf';
    this.paper = el('article', { class: 'job-sheet-paper', 'aria-live': 'polite' });
    this.heading = el('h1', { tabindex: -1 }, say('sheet_title'));
    const readers = /** @type {Reader[]} */ (['both', 'customer', 'workshop']);
    this.bar = el('div', { class: 'sheet-bar' },
      el('button', { type: 'button', class: 'quiet', onclick: () => this.close() }, say('sheet_back')),
      el('fieldset', { class: 'field one-of' }, el('legend', { class: 'visually-hidden' }, say('sheet_for')), el('div', { class: 'segments' },
        ...readers.map((r) => el('label', { class: 'segment' }, el('input', { type: 'radio', name: 'sheet-for', checked: r === this.reader, onchange: () => { this.reader = r; this.#draw(); } }), el('span', {}, say(`sheet_${r}`)))))),
      el('label', { class: 'pick' }, `${say('sheet_material')} `, el('select', { onchange: (/** @type {{target: HTMLSelectElement}} */ e) => { this.material = e.target.value; this.#load(); } },
        ...MATERIALS.map((m) => el('option', { value: m }, say(m))))),
      el('button', { type: 'button', class: 'main', onclick: () => window.print() }, say('sheet_print')));
    this.root = el('main', { class: 'job-sheet', onkeydown: (/** @type {KeyboardEvent} */ e) => { if (e.key === 'Escape') this.close(); } }, this.bar, this.paper);
    /** @type {import('./sheet-parts.js').SheetData|null} */
    this.data = null;
    /** @type {Job|null} */
    this.job = null;
  }

  /** @param {Job} job @param {string} seat */
  async open(job, seat) {
    this.job = job;
    this.seat = seat;
    document.documentElement.classList.add('on-sheet');
    document.body.append(this.root);
    this.paper.replaceChildren(this.heading);
    this.heading.focus();
    window.scrollTo({ top: 0 });
    await this.#load();
  }

  close() {
    document.documentElement.classList.remove('on-sheet');
    this.root.remove();
    this.onClose();
  }

  async #load() {
    const { engine, job } = this;
    if (!job) return;
    const [plan, evaluated, banded] = await Promise.all([
      engine.call('plan', { job, material: this.material }), engine.call('evaluate', { job }), engine.call('band', { job }).catch(() => null)]);
    const trouble = [...(plan.reply.findings ?? []), ...(evaluated.reply.findings ?? [])].find((f) => f.level === 'error');
    if (trouble) {
      this.paper.replaceChildren(this.heading, el('p', { class: 'trouble', role: 'alert' }, say('sheet_trouble', { why: trouble.say })));
      return;
    }
    const seats = evaluated.reply.seats ?? [];
    const seat = seats.includes(this.seat) ? /** @type {string} */ (this.seat) : seats[0];
    const id = `level/sum/${seat}`;
    const low = banded && column(banded, `band_low/${id}`);
    const high = banded && column(banded, `band_high/${id}`);
    this.data = {
      job, plan: plan.reply, seat, system: this.system,
      curve: { hz: /** @type {Float64Array} */ (column(evaluated, 'freq')), level: /** @type {Float64Array} */ (column(evaluated, id)) },
      band: banded && low && high ? { hz: /** @type {Float64Array} */ (column(banded, 'freq')), low, high } : null,
      spread: banded?.reply.reach_hz ? banded.reply : null,
      loads: (evaluated.reply.derived?.subs ?? []).map((/** @type {{load_min_ohm: number}} */ s) => s.load_min_ohm),
    };
    this.#draw();
  }

  #draw() {
    const { data, reader } = this;
    if (!data) return;
    const customer = reader !== 'workshop';
    const workshop = reader !== 'customer';
    setText(this.heading, data.job.title || say('sheet_title'));
    this.paper.replaceChildren(...[
      el('header', {}, el('p', { class: 'soft' }, `Bootfloor · ${say('sheet_title')} · ${date.format(new Date())}`), this.heading, data.job.demo ? el('p', { class: 'warn' }, say('sheet_demo')) : null, data.job.notes ? el('p', {}, data.job.notes) : null),
      carPart(data),
      customer ? agreedPart(data) : null,
      responsePart(data),
      systemPart(data), settingsPart(data),
      workshop ? workshopPart(data) : null,
      customer ? carePart() : null,
      assumptionsPart(data), cautionsPart(data),
    ].filter((n) => n !== null));
  }
}

/**
 * @param {{reply: any, floats: Float64Array}} answer
 * @param {string} id
 * @returns {Float64Array|null}
 */
function column({ reply, floats }, id) {
  const c = (reply.curves ?? []).find((/** @type {{id: string}} */ k) => k.id === id);
  return c ? floats.subarray(c.offset, c.offset + c.length) : null;
}
