// The amplifier and the crossover: one channel for the sub, one for the doors.

import { el } from '../dom.js';
import { formatWithUnit } from '../format.js';
import { say } from '../words.js';
import { choiceField, factField, group, numberField, onlyWhen } from './fields.js';

/** @typedef {import('./model.js').Model} Model */
/** @typedef {import('../store.js').Store} Store */
/** @typedef {import('../job.js').Channel} Channel */
/** @typedef {'lowpass'|'highpass'} Pass */

/**
 * @param {Store} store
 * @param {Model} model
 * @param {number} index
 * @returns {import('./fields.js').Field[]}
 */
export function amplifierSheet(store, model, index) {
  return [
    ...channelGroups(store, model, `/subs/${index}/channel`, (m) => m.job.subs[index]?.channel, say('amp_sub'), ['lowpass', 'highpass']),
    ...channelGroups(store, model, '/doors/channel', (m) => (m.job.doors.fitted ? m.job.doors.channel : undefined), say('amp_doors'), ['highpass']),
    group('', [], { note: say('caution_fuse') }),
  ];
}

/**
 * @param {Store} store
 * @param {Model} model
 * @param {string} at
 * @param {(m: Model) => Channel|undefined} channel
 * @param {string} title
 * @param {Pass[]} passes
 */
function channelGroups(store, model, at, channel, title, passes) {
  const present = (/** @type {Model} */ m) => channel(m) !== undefined;
  const doors = at.startsWith('/doors');
  return [
    group(title, [
      numberField(store, { pointer: `${at}/amplifier/rated_w`, label: say('rated_w'), quantity: 'watts', slide: doors ? [10, 500] : [50, 3000], log: true }),
      numberField(store, { pointer: `${at}/amplifier/rated_ohm`, label: say('rated_ohm'), quantity: 'ohms' }),
      ...passes.map((pass) => filterFields(store, model, at, channel, pass)),
      numberField(store, { pointer: `${at}/gain_db`, label: say('gain'), quantity: 'decibels', slide: [-20, 10] }),
      numberField(store, { pointer: `${at}/delay_ms`, label: say('delay'), quantity: 'milliseconds', slide: [0, 20] }),
      choiceField(store, { pointer: `${at}/inverted`, label: say('polarity'), choices: [[false, say('normal')], [true, say('inverted')]] }),
      factField(say('drive'), (m) => {
        const v = doors ? undefined : m.subDerived(Number(at.split('/')[2]))?.drive_v;
        return v ? formatWithUnit(v, 'volts', m.system) : '';
      }),
    ], { when: present }),
    group(`${title}: ${say('more').toLowerCase()}`, [
      numberField(store, { pointer: `${at}/amplifier/min_ohm`, label: say('min_ohm'), quantity: 'ohms' }),
      numberField(store, { pointer: `${at}/amplifier/cable_m`, label: say('cable_m'), quantity: 'metres' }),
      numberField(store, { pointer: `${at}/amplifier/cable_mm2`, label: say('cable_mm2'), quantity: 'square_mm' }),
    ], { folded: true, when: present }),
  ];
}

/**
 * One pass filter: on or off, corner, slope and shape. Its place in the list
 * of filters is looked up when the sheet is made; the sheet is made anew when
 * the list changes.
 * @param {Store} store
 * @param {Model} model
 * @param {string} at
 * @param {(m: Model) => Channel|undefined} channel
 * @param {Pass} pass
 */
function filterFields(store, model, at, channel, pass) {
  const filters = channel(model)?.filters ?? [];
  const i = filters.findIndex((f) => f.kind === pass);
  const pointer = `${at}/filters/${i}`;
  const on = (/** @type {Model} */ m) => { const f = channel(m)?.filters[i]; return f !== undefined && !f.off; };
  const toggle = choiceField(store, {
    pointer: i < 0 ? `${at}/filters` : pointer, label: say(pass), choices: [[true, say('on')], [false, say('off')]],
    read: on,
    change: (value) => {
      if (i >= 0) return [[`${pointer}/off`, value ? undefined : true]];
      const subsonic = pass === 'highpass' && !at.startsWith('/doors');
      return value ? [[`${at}/filters/-`, { kind: pass, shape: subsonic ? 'butterworth' : 'linkwitz_riley', order: 4, freq_hz: subsonic ? 25 : 80 }]] : [];
    },
  });
  if (i < 0) return block([toggle]);
  const shape = filters[i]?.shape;
  const orders = shape === 'linkwitz_riley' ? [2, 4, 6, 8] : [1, 2, 3, 4, 5, 6, 7, 8];
  return block([
    toggle,
    onlyWhen(numberField(store, { pointer: `${pointer}/freq_hz`, label: say('corner'), within: say(pass), quantity: 'hz', slide: pass === 'highpass' && !at.startsWith('/doors') ? [10, 60] : [30, 250], log: true }), on),
    onlyWhen(choiceField(store, {
      pointer: `${pointer}/order`, label: say('slope'), within: say(pass), list: true,
      choices: orders.map((n) => [n, say('slope_value', { db: 6 * n })]),
    }), on),
    onlyWhen(choiceField(store, {
      pointer: `${pointer}/shape`, label: say('shape'), within: say(pass), list: true,
      choices: [['linkwitz_riley', say('linkwitz_riley')], ['butterworth', say('butterworth')], ['bessel', say('bessel')]],
      change: (value, m) => {
        const order = channel(m)?.filters[i]?.order ?? 4;
        return [[`${pointer}/shape`, value], ...(value === 'linkwitz_riley' && order % 2 ? [/** @type {[string, any]} */ ([`${pointer}/order`, order + 1])] : [])];
      },
    }), on),
  ]);
}

/**
 * Fields that belong together, set off by a line at their side.
 * @param {import('./fields.js').Field[]} fields
 * @returns {import('./fields.js').Field}
 */
function block(fields) {
  return {
    root: el('div', { class: 'block' }, ...fields.map((f) => f.root)),
    update(m) {
      for (const f of fields) f.update(m);
    },
  };
}

/**
 * @param {Model} model
 * @param {number} index
 * @param {boolean} [narrow] in fewer words
 */
export function amplifierInBrief(model, index, narrow = false) {
  const amp = model.job.subs[index]?.channel.amplifier;
  if (!amp) return '';
  const watts = formatWithUnit(amp.rated_w, 'watts', model.system);
  return narrow ? watts : `${watts}, ${formatWithUnit(amp.rated_ohm, 'ohms', model.system)}`;
}
