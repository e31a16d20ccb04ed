// A driver without a data sheet: from its impedance curve, and a second one
// with a known mass or in a known box; or from five readings by hand.

import { Chart } from '../chart.js';
import { createCursor } from '../chart-cursor.js';
import { el, freshId, setText } from '../dom.js';
import { formatHz, formatNumber } from '../format.js';
import { HandPart } from './driver-hand.js';
import { NumberEntry, choice } from './entry.js';
import { Work } from './work.js';
import { say, sayOf } from './words.js';

/** @typedef {import('../job.js').Driver} Driver */

export class MeasurePart {
  /**
   * @param {import('../engine.js').Engine} engine
   * @param {{take: (driver: Driver) => void, inJob: () => Driver|undefined}} how
   */
  constructor(engine, how) {
    this.how = how;
    /** @type {import('../units.js').System} */
    this.system = 'metric';
    this.withMass = true;
    /** @type {Driver|null} */
    this.found = null;

    const area = (/** @type {Parameters<typeof say>[0]} */ label) => {
      const id = freshId('curve');
      const input = el('textarea', { id, rows: 6, spellcheck: 'false', autocomplete: 'off', placeholder: '10  4.1\n12.5  4.4\n16  5.2' });
      return { input, root: el('div', {}, el('label', { for: id }, say(label)), input) };
    };
    this.curve = area('measure_curve');
    this.second = area('measure_second');
    this.mass = new NumberEntry({ label: say('measure_mass'), quantity: 'grams', min: 0.1, max: 2000, optional: true });
    this.box = new NumberEntry({ label: say('measure_box'), quantity: 'litres', min: 0.5, max: 500, optional: true });
    this.sd = new NumberEntry({ label: say('measure_sd'), quantity: 'cm2', min: 5, max: 5000, optional: true });
    this.re = new NumberEntry({ label: say('measure_re'), quantity: 'ohms', min: 0.1, max: 100, optional: true });
    this.work = new Work(engine, say('measure_go'), () => this.#fit());
    this.table = el('table', { class: 'settings' });
    this.misfit = el('p', { class: 'told' });
    this.notes = el('ul', { class: 'join-notes' });
    this.steps = el('ol', { class: 'steps-by-hand' });
    this.chart = new Chart({ title: say('measure_chart'), span: { step: 10, foot: 0 }, cursor: createCursor(40) });
    this.take = el('button', { type: 'button', class: 'go', onclick: () => { if (this.found) how.take(this.found); } }, say('measure_take'));
    this.result = el('section', { hidden: true }, this.chart.root, this.table, this.misfit, this.notes, this.take, el('details', { class: 'group' }, el('summary', {}, say('measure_steps')), this.steps));
    this.hand = new HandPart(how);
    this.#showWith();
    const second = el('details', { class: 'group' }, el('summary', {}, say('measure_second')), el('p', { class: 'told' }, say('measure_second_lead')), this.second.root,
      choice({ label: say('measure_with'), value: true, choices: [[true, say('with_mass')], [false, say('with_box')]], onChange: (v) => { this.withMass = v; this.#showWith(); } }), this.mass.root, this.box.root);
    this.root = el('div', {}, el('p', { class: 'told' }, say('measure_lead')), this.curve.root, this.sd.root, el('p', { class: 'told' }, say('measure_sd_help')), this.re.root, second, this.work.root, this.result, this.hand.root);
  }

  /** @param {import('../views/model.js').Model} model */
  update(model) {
    this.system = model.system;
    for (const e of [this.mass, this.box, this.sd, this.re, ...this.hand.readings]) e.show(e.value, model.system);
  }

  #showWith() {
    this.mass.root.hidden = !this.withMass;
    this.box.root.hidden = this.withMass;
  }

  async #fit() {
    if (this.curve.input.value.trim() === '') {
      this.work.say(say('measure_empty'));
      return;
    }
    const second = this.second.input.value.trim();
    const answer = await this.work.run('fit', {
      curve: this.curve.input.value, sd_cm2: this.sd.value, re_ohm: this.re.value,
      ...(second ? { second, added_g: this.withMass ? this.mass.value : undefined, box_l: this.withMass ? undefined : this.box.value } : {}),
    });
    if (!answer) return;
    const r = /** @type {import('./replies.js').FitReply} */ (answer.reply);
    const { floats } = answer;
    this.result.hidden = false;
    this.table.replaceChildren(el('tbody', {}, ...r.values.map((v) => el('tr', {}, el('th', { scope: 'row' }, `${sayOf('key', v.key)}, ${v.name}`),
      el('td', {}, v.plus < v.value / 1000 ? say('measure_exact', { value: figures(v.value) }) : say('measure_value', { value: figures(v.value), plus: formatNumber(Number(v.plus.toPrecision(2)), 6) }), v.unit ? ` ${v.unit}` : '')))));
    setText(this.misfit, say('measure_misfit', { pct: formatNumber(r.rms_pct, 1), n: r.points }));
    const whole = ['vas_l', 'mms_g', 'cms_mm_n'].some((k) => typeof /** @type {Record<string, any>} */ (r.driver)[k] === 'number');
    this.notes.replaceChildren(...[...r.notes, ...(whole ? [] : [say('measure_partly')])].map((n) => el('li', {}, n)));
    this.steps.replaceChildren(...r.steps.map((s) => el('li', {}, s.do, s.formula ? el('code', {}, ` ${s.formula}`) : '', ` = ${figures(s.result)}${s.unit ? ` ${s.unit}` : ''}`)));
    const freq = floats.slice(0, r.points);
    const fs = r.values.find((v) => v.key === 'fs_hz')?.value;
    this.chart.update({
      freq, unit: 'Ω', digits: 2, summary: '', series: [{ key: 'ohm', label: say('measure_measured'), kind: 'sum', values: floats.slice(r.points, 2 * r.points) }],
      places: fs ? [{ hz: fs, label: `fs ${formatHz(fs)}` }] : [],
    });
    // What the curve does not tell stays as the job has it: size, travel, power.
    this.found = { ...sizesOf(this.how.inJob()), ...r.driver, name: r.driver.name || this.how.inJob()?.name || '' };
  }
}

/** Three figures, as far as they go. @param {number} v */
function figures(v) {
  return formatNumber(Number(v.toPrecision(3)), 6);
}

/** @param {Driver|undefined} d @returns {Partial<Driver>} */
function sizesOf(d) {
  if (!d) return {};
  const { size_in, xmax_mm, power_w, depth_mm, cut_out_mm, outside_mm, volume_l, mass_kg, price, coils, coil_ohm } = d;
  return { size_in, xmax_mm, power_w, depth_mm, cut_out_mm, outside_mm, volume_l, mass_kg, price, coils, coil_ohm };
}
