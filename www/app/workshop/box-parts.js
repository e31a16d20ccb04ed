// The fields of a port and of passive radiators.

import { formatHz, formatWithUnit } from '../format.js';
import { choiceField, factField, group, numberField, onlyWhen } from '../views/fields.js';
import { sectionInput, warning } from './box-bits.js';
import { portArea } from './box-geometry.js';
import { boxSection } from './box-section.js';
import { NumberEntry } from './entry.js';
import { say } from './words.js';

/**
 * @typedef {import('../views/model.js').Model} Model
 * @typedef {import('../views/fields.js').Field} Field
 * @typedef {import('../store.js').Store} Store
 */

/** Which of the engine's port lengths belongs to a port. @param {string} type @param {'port'|'front'} name */
export function lengthIndex(type, name) {
  return name === 'port' && type.startsWith('bandpass6') ? 1 : 0;
}

/**
 * @param {Store} store
 * @param {number} index
 * @param {'port'|'front'} name
 * @param {string} type
 * @returns {Field}
 */
export function portGroup(store, index, name, type) {
  const at = `/subs/${index}/box/${name}`;
  const port = (/** @type {Model} */ m) => m.job.subs[index]?.box[name] ?? undefined;
  const round = (/** @type {Model} */ m) => port(m)?.shape === 'round';
  const byLength = (/** @type {Model} */ m) => (port(m)?.length_mm ?? 0) > 0;
  const worked = (/** @type {Model} */ m) => m.subDerived(index)?.port_length_mm?.[lengthIndex(type, name)];
  const title = type === 'vented' ? say('port') : say(name === 'front' ? 'port_front' : 'port_rear');
  const within = title;
  return group(title, [
    choiceField(store, {
      pointer: `${at}/shape`, label: say('port_shape'), within, choices: [['round', say('shape_round')], ['slot', say('shape_slot')]],
      change: (value, m) => {
        const now = port(m);
        const d = now?.diameter_mm || 100;
        return [[at, { ...now, shape: value, diameter_mm: d, width_mm: now?.width_mm || Math.round(d * 2.4), height_mm: now?.height_mm || Math.round(d / 3), ends: value === 'slot' ? 'wall' : now?.ends === 'wall' ? 'flanged_free' : now?.ends }]];
      },
    }),
    onlyWhen(numberField(store, { pointer: `${at}/diameter_mm`, label: say('port_diameter'), within, quantity: 'wood_mm', slide: [40, 250] }), round),
    onlyWhen(numberField(store, { pointer: `${at}/width_mm`, label: say('port_width'), within, quantity: 'wood_mm' }), (m) => !round(m)),
    onlyWhen(numberField(store, { pointer: `${at}/height_mm`, label: say('port_height'), within, quantity: 'wood_mm' }), (m) => !round(m)),
    numberField(store, { pointer: `${at}/count`, label: say('port_count'), within, quantity: 'whole' }),
    factField(say('port_area'), (m) => { const p = port(m); return p ? formatWithUnit(portArea(p), 'cm2', m.system) : ''; }),
    choiceField(store, {
      pointer: `${at}/length_mm`, label: say('port_by'), within, choices: [[false, say('by_tuning')], [true, say('by_length')]], read: byLength,
      change: (value, m) => (value ? [[`${at}/length_mm`, Math.round(worked(m) ?? 200)]] : [[`${at}/length_mm`, undefined], ...(port(m)?.tuning_hz ? [] : [/** @type {[string, any]} */ ([`${at}/tuning_hz`, 35])])]),
    }),
    onlyWhen(numberField(store, { pointer: `${at}/tuning_hz`, label: say('port_tuning'), within, quantity: 'fine_hz', slide: [16, name === 'front' ? 120 : 80], log: true }), (m) => !byLength(m)),
    onlyWhen(numberField(store, { pointer: `${at}/length_mm`, label: say('port_length'), within, quantity: 'wood_mm', slide: [10, 1500], log: true }), byLength),
    onlyWhen(factField(say('port_length'), (m) => { const mm = worked(m); return mm ? formatWithUnit(mm, 'mm', m.system) : ''; }), (m) => !byLength(m)),
    warning((m) => fitWords(m, index, name)),
    choiceField(store, {
      pointer: `${at}/ends`, label: say('port_ends'), within, list: true,
      choices: ['flanged_free', 'flanged_flanged', 'free_free', 'wall'].map((e) => [e, say(/** @type {any} */ (`ends_${e}`))]),
    }),
    numberField(store, { pointer: `${at}/qp`, label: say('port_qp'), within, quantity: 'plain' }),
  ]);
}

/** What there is to say about a port that does not simply go in. @param {Model} m @param {number} index @param {'port'|'front'} name */
function fitWords(m, index, name) {
  const input = sectionInput(m, index);
  if (!input || !input.portLengths) return '';
  const lay = boxSection(input).ports[name];
  if (!lay || lay.fit === 'straight') return '';
  const mm = (/** @type {number} */ v) => formatWithUnit(v, 'mm', m.system);
  return say(/** @type {const} */ ({ bent: 'say_bent', too_long: 'say_too_long', too_wide: 'say_too_wide' })[lay.fit], {
    length: mm(lay.length), straight: mm(lay.straightMM), bent: mm(lay.bentMM), bore: mm(lay.bore),
  });
}

/**
 * The mass to add to each passive radiator for another tuning. Stiffness of
 * suspension and air stay, so the tuning goes with one over the root of the
 * mass that moves (Small, JAES 22 (1974) 592).
 * @param {number} mass g, of one without what is added
 * @param {number} added g
 * @param {number} tuned Hz, with what is added
 * @param {number} wanted Hz
 * @returns {number} g; below zero where the bare mass already tunes lower
 */
export function addedFor(mass, added, tuned, wanted) {
  return (mass + added) * (tuned / wanted) ** 2 - mass;
}

/** @param {Store} store @param {number} index @returns {Field} */
export function passiveGroup(store, index) {
  const at = `/subs/${index}/box/passive`;
  const passive = (/** @type {Model} */ m) => m.job.subs[index]?.box.passive ?? undefined;
  const tuned = (/** @type {Model} */ m) => (m.stale ? undefined : m.subDerived(index)?.system_hz);
  return group(say('passive'), [
    numberField(store, { pointer: `${at}/count`, label: say('passive_count'), quantity: 'whole' }),
    numberField(store, { pointer: `${at}/added_g`, label: say('passive_added'), quantity: 'grams', slide: [0, 800] }),
    tuner(store, at, passive, tuned),
    factField(say('passive_notch'), (m) => {
      const p = passive(m);
      return p ? formatHz(p.free_hz * Math.sqrt(p.mass_g / (p.mass_g + p.added_g))) : '';
    }),
    factField(say('passive_travel'), (m) => {
      const curve = m.curve(`passive_travel/sub/${index}`);
      const p = passive(m);
      if (!curve || !p) return '';
      const most = curve.reduce((a, b) => Math.max(a, b), 0);
      const v = formatWithUnit(most, 'fine_mm', m.system);
      return most > p.xmax_mm ? say('passive_over', { v, xmax: formatWithUnit(p.xmax_mm, 'fine_mm', m.system) }) : v;
    }),
    numberField(store, { pointer: `${at}/sd_cm2`, label: say('passive_sd'), quantity: 'cm2' }),
    numberField(store, { pointer: `${at}/mass_g`, label: say('passive_mass'), quantity: 'grams' }),
    numberField(store, { pointer: `${at}/free_hz`, label: say('passive_free'), quantity: 'fine_hz' }),
    numberField(store, { pointer: `${at}/qmp`, label: say('passive_qmp'), quantity: 'plain' }),
    numberField(store, { pointer: `${at}/xmax_mm`, label: say('passive_xmax'), quantity: 'fine_mm' }),
  ]);
}

/**
 * The tuning, which is set by the mass that is added.
 * @param {Store} store
 * @param {string} at
 * @param {(m: Model) => import('../job.js').Passive|undefined} passive
 * @param {(m: Model) => number|undefined} tuned
 * @returns {Field}
 */
function tuner(store, at, passive, tuned) {
  /** @type {Model|null} */
  let model = null;
  const entry = new NumberEntry({
    label: say('passive_tune'), quantity: 'fine_hz', min: 5, max: 200,
    onChange(wanted) {
      const p = model && passive(model);
      const now = model && tuned(model);
      if (!p || !now || !wanted) return '';
      const added = addedFor(p.mass_g, p.added_g, now, wanted);
      if (added < 0) return say('passive_heavy', { hz: formatHz(now * Math.sqrt((p.mass_g + p.added_g) / p.mass_g)) });
      store.set(`${at}/added_g`, Math.round(added), { label: say('passive_tune') });
      return '';
    },
  });
  return {
    root: entry.root,
    update(m) {
      model = m;
      entry.show(tuned(m), m.system);
    },
  };
}
