// One choice of "Which sub?": drawn to scale in the car, with what it gains
// and gives up.

import { el, freshId, setText } from '../dom.js';
import { formatHz, formatNumber, formatValue, formatWithUnit } from '../format.js';
import { bandStrip } from './band-strip.js';
import { JobPicture } from './car-picture.js';
import { say, sayOf } from './words.js';

/** @typedef {import('./replies.js').Choice} Choice */
/** @typedef {import('../units.js').System} System */

/** Under this a note is felt more than heard (the lower end of the contours of ISO 226); deeper counts as this deep. */
const HEARD_HZ = 20;

/** How deep in words. @param {number} hz */
export function reachWords(hz) {
  return hz < HEARD_HZ ? say('reach_below', { hz: formatHz(HEARD_HZ) }) : formatHz(hz);
}

/** Scales of the two strips: better to the right. */
const DEPTH = { from: 80, to: HEARD_HZ, log: true };
const LOUD = { from: 90, to: 135 };

/** @param {number} db */
const decibels = (db) => `${formatNumber(db, 0)}\u00a0dB`;

/**
 * The outside of a box in words: wide, high, deep.
 * @param {import('./replies.js').Outside} o
 * @param {System} system
 */
export function outsideWords(o, system) {
  return say('outside_size', { w: formatValue(o.width_mm, 'mm', system), h: formatValue(o.height_mm, 'mm', system), d: formatWithUnit(o.depth_mm, 'mm', system) });
}

/** The same choice, as far as the page shows it. @param {Choice} a @param {Choice} b */
const same = (a, b) => JSON.stringify(a) === JSON.stringify(b);

export class ChoiceRow {
  /**
   * @param {Choice} choice
   * @param {(choice: Choice) => void} take
   */
  constructor(choice, take) {
    this.id = choice.id;
    this.choice = choice;
    this.made = '';
    this.picture = new JobPicture(say('picture', { title: choice.title }));
    const heading = freshId('choice');
    this.tag = el('p', { class: 'picked' });
    this.title = el('h2', { id: heading }, choice.title);
    this.words = el('div', { class: 'gains' });
    this.facts = el('div', { class: 'strips' });
    this.list = el('dl', { class: 'choice-facts' });
    this.why = el('p', { class: 'why' });
    this.take = el('button', { type: 'button', class: 'strong', onclick: () => take(this.choice) }, say('take'), el('span', { class: 'visually-hidden' }, `: ${choice.title}`));
    this.stage = el('div', { class: 'choice-picture' }, this.picture.root);
    this.root = el('article', { class: 'choice', 'aria-labelledby': heading },
      el('header', {}, this.tag, this.title), this.stage, el('div', { class: 'choice-words' }, this.words, this.facts, this.list, this.why, this.take));
    this.width = 0;
    new ResizeObserver(([entry]) => {
      const width = entry ? Math.round(entry.contentRect.width) : 0;
      if (width === this.width) return;
      this.width = width;
      this.#draw();
    }).observe(this.stage);
    /** @type {System} */
    this.system = 'metric';
  }

  /**
   * @param {Choice} choice
   * @param {{lowest_hz: number, level_db: number}|undefined} asked
   * @param {System} system
   */
  update(choice, asked, system) {
    if (same(choice, this.choice) && this.made === system) return;
    this.choice = choice;
    this.system = system;
    this.made = system;
    setText(this.tag, choice.picked_for.map((p, i) => (i ? sayOf('picked', p).toLowerCase() : sayOf('picked', p))).join(', '));
    setText(this.title, choice.title);
    this.words.replaceChildren(...[[say('gain'), choice.gain], [say('give_up'), choice.give_up]].filter(([, text]) => text).map(([label, text]) => el('p', {}, el('b', {}, /** @type {string} */ (label)), ' ', /** @type {string} */ (text))));
    const { band } = choice;
    const heard = band && band.reach_hz.high >= HEARD_HZ;
    this.facts.replaceChildren(
      strip(say('reach'), reachWords(choice.reach_hz), heard && say('between', { low: formatNumber(Math.max(HEARD_HZ, band.reach_hz.low), 0), high: formatNumber(band.reach_hz.high, 0) }),
        heard ? say('band_reach', { value: reachWords(choice.reach_hz), low: reachWords(band.reach_hz.low), high: reachWords(band.reach_hz.high) }) : '', bandStrip(DEPTH, choice.reach_hz, band?.reach_hz, asked?.lowest_hz)),
      strip(say('level'), decibels(choice.level_db), band && say('between', { low: formatNumber(band.level_db.low, 0), high: formatNumber(band.level_db.high, 0) }),
        band ? say('band_level', { value: decibels(choice.level_db), low: decibels(band.level_db.low), high: decibels(band.level_db.high) }) : '', bandStrip(LOUD, choice.level_db, band?.level_db, asked?.level_db)));
    /** @type {[string, string][]} */
    const facts = [];
    if (choice.boot_left_l !== undefined) {
      const pct = choice.outside?.left_pct;
      facts.push([say('left'), `${say('litres', { n: formatNumber(choice.boot_left_l, 0) })}${pct === undefined ? '' : `, ${formatNumber(pct, 0)} %`}`]);
    }
    if (choice.outside) facts.push([say('outside'), outsideWords(choice.outside, system)]);
    if (choice.power_w) facts.push([say('amplifier'), formatWithUnit(choice.power_w, 'watts', system)]);
    if (choice.price) facts.push([say(choice.driver.typical ? 'price_typical' : 'price'), formatNumber(choice.price, 2)]);
    this.list.replaceChildren(...facts.map(([name, value]) => el('div', {}, el('dt', {}, name), el('dd', {}, value))));
    setText(this.why, [choice.why, choice.outside?.pass_say, band?.say].filter(Boolean).join(' '));
    this.#draw();
  }

  #draw() {
    if (this.width > 100) this.picture.draw(this.choice.job, this.system, this.width, 250);
  }
}

/**
 * @param {string} name
 * @param {string} value
 * @param {string|false|undefined} band
 * @param {string} spoken
 * @param {SVGElement} drawing
 */
function strip(name, value, band, spoken, drawing) {
  return el('p', { class: 'strip-row' },
    el('span', { 'aria-hidden': spoken ? 'true' : null }, `${name} `, el('b', {}, value), band ? el('small', {}, ` ${band}`) : null), spoken ? el('span', { class: 'visually-hidden' }, spoken) : null, drawing);
}
