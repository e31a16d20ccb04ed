// The box's sheet: its type, the box cut open to scale, exactly the fields that
// the type reads, and what is worked out of them.

import { boxSize } from '../car-box.js';
import { el } from '../dom.js';
import { formatNumber, formatValue, formatWithUnit } from '../format.js';
import { choiceField, factField, group, numberField, onlyWhen } from '../views/fields.js';
import { sectionInput, told, warning } from './box-bits.js';
import { airLitres, gapRatio } from './box-geometry.js';
import { lineField } from './box-line.js';
import { passiveGroup, portGroup } from './box-parts.js';
import { BoxPicture } from './box-picture.js';
import { BOX_TYPES, reads, withType } from './box-starts.js';
import { workedOut } from './box-worked.js';
import { say } from './words.js';
import { say as sayShared, sayOf as sayOfShared } from '../words.js';

/**
 * @typedef {import('../views/model.js').Model} Model
 * @typedef {import('../views/fields.js').Field} Field
 * @typedef {import('../store.js').Store} Store
 */

/**
 * Outside size of a box of any type, mm.
 * @param {Model} model @param {number} index @param {Partial<import('../job.js').Box>} [change]
 */
function outside(model, index, change = {}) {
  const input = sectionInput(model, index);
  if (!input) return null;
  const box = { ...input.box, ...change };
  return boxSize({ box: { ...box, net_l: airLitres(box), front_l: 0 }, driver: input.driver, drivers: input.drivers, place: input.place, boot: input.boot, portLengthMM: input.portLengths?.[0] });
}

/**
 * The height that goes with a change of the box, where the document has one.
 * @param {number} index
 * @param {string} key
 * @returns {(value: number, m: Model) => [string, any][]}
 */
function alsoHeight(index, key) {
  return (value, m) => {
    const box = m.job.subs[index]?.box;
    if (!box || !(box.height_mm > 0)) return [];
    const size = outside(m, index, { [key]: value });
    return size ? [[`/subs/${index}/box/height_mm`, Math.round(size.height)]] : [];
  };
}

/**
 * @param {Store} store
 * @param {Model} model
 * @param {number} index
 * @returns {Field[]}
 */
export function boxSheet(store, model, index) {
  const at = `/subs/${index}/box`;
  const place = `/subs/${index}/place`;
  const type = model.job.subs[index]?.box.type ?? '';
  const has = (/** @type {string} */ field) => reads(type, field);
  const known = Object.hasOwn(BOX_TYPES, type);
  const litres = (/** @type {'net_l'|'front_l'} */ key, /** @type {string} */ label) => numberField(store, {
    pointer: `${at}/${key}`, label, quantity: 'litres', slide: [5, 150], log: true, also: alsoHeight(index, key),
  });
  const twoChambers = has('front_l');
  const built = type !== 'infinite_baffle';

  return [
    group('', [
      wide(choiceField(store, {
        pointer: `${at}/type`, label: say('type'), list: true,
        choices: [...Object.keys(BOX_TYPES), ...(known ? [] : [type])].map((t) => [t, say(/** @type {any} */ (`type_${t}`))]),
        change: (value, m) => changeType(store, m, index, value),
      })),
      told(known ? say(/** @type {any} */ (`type_say_${type}`)) : ''),
      picture(index),
      ...(has('net_l') ? [litres('net_l', say(twoChambers ? 'net_rear' : 'net'))] : []),
      ...(twoChambers ? [litres('front_l', say('net_front'))] : []),
    ]),
    ...workedOut(index, type),
    ...(has('front') ? [portGroup(store, index, 'front', type)] : []),
    ...(has('port') ? [portGroup(store, index, 'port', type)] : []),
    ...(has('passive') ? [passiveGroup(store, index)] : []),
    ...(has('line') ? [lineField(store, index)] : []),
    ...(has('vent') ? [group(say('vent'), [
      numberField(store, { pointer: `${at}/vent/area_cm2`, label: say('vent_area'), quantity: 'cm2', slide: [5, 400], log: true }),
      numberField(store, { pointer: `${at}/vent/resistance_pa_s_m`, label: say('vent_resistance'), quantity: 'whole', slide: [50, 5000], log: true }),
    ])] : []),
    group(say('place'), [
      choiceField(store, { pointer: `${place}/fires`, label: say('fires'), list: true, choices: ['rear', 'up', 'front', 'down', 'left', 'right'].map((f) => [f, sayOfShared('fires', f)]) }),
      numberField(store, { pointer: `${place}/gap_mm`, label: say('gap'), quantity: 'wood_mm', optional: true }),
      factField(say('gap_out'), (m) => {
        const input = sectionInput(m, index);
        const ratio = input && gapRatio(input);
        return ratio ? say(ratio < 1 ? 'gap_tight' : 'gap_times', { n: formatNumber(ratio, 1) }) : '';
      }),
      factField(say('sag'), (m) => sagWords(m, index)),
      numberField(store, { pointer: `${place}/x_mm`, label: say('x'), quantity: 'mm' }),
      numberField(store, { pointer: `${place}/y_mm`, label: say('y'), quantity: 'mm' }),
      numberField(store, { pointer: `${place}/z_mm`, label: say('z'), quantity: 'mm' }),
    ], { folded: !model.job.subs[index]?.place.gap_mm }),
    ...(built ? [group(say('outside'), [
      factField(say('whd'), (m) => {
        const s = outside(m, index);
        return s ? say('whd_value', { w: formatValue(s.width, 'wood_mm', m.system), h: formatValue(s.height, 'wood_mm', m.system), d: formatWithUnit(s.depth, 'wood_mm', m.system) }) : '';
      }),
      warning((m) => {
        const s = outside(m, index);
        const { height_mm } = m.job.car.boot;
        return s && s.height > height_mm ? say('too_high', { h: formatWithUnit(s.height, 'wood_mm', m.system), boot_h: formatWithUnit(height_mm, 'wood_mm', m.system) }) : '';
      }),
      numberField(store, { pointer: `${at}/width_mm`, label: say('width'), quantity: 'wood_mm', also: alsoHeight(index, 'width_mm') }),
      numberField(store, { pointer: `${at}/depth_mm`, label: say('depth'), quantity: 'wood_mm', also: alsoHeight(index, 'depth_mm') }),
      numberField(store, { pointer: `${at}/panel_mm`, label: say('panel'), quantity: 'wood_mm', also: alsoHeight(index, 'panel_mm') }),
    ], { folded: true })] : []),
    group(say('losses'), [
      ...(has('lining') ? [choiceField(store, { pointer: `${at}/lining`, label: say('lining'), list: true, choices: linings(model, index) })] : []),
      ...(has('ql') ? [numberField(store, { pointer: `${at}/ql`, label: say('ql'), quantity: 'plain' }), numberField(store, { pointer: `${at}/qa`, label: say('qa'), quantity: 'plain' }), told(say('loss_help'))] : []),
      onlyWhen(choiceField(store, {
        pointer: `${at}/isobaric`, label: say('isobaric'), choices: [[false, sayShared('off')], [true, sayShared('on')]],
        read: (m) => m.job.subs[index]?.box.isobaric ?? false, change: (value) => [[`${at}/isobaric`, value || undefined]],
      }), (m) => { const s = m.job.subs[index]; return s !== undefined && (s.box.isobaric === true || (s.series * s.parallel) % 2 === 0); }),
      onlyWhen(numberField(store, { pointer: `${at}/between_l`, label: say('between'), quantity: 'litres', optional: true }), (m) => m.job.subs[index]?.box.isobaric === true),
      onlyWhen(told(say('between_help')), (m) => m.job.subs[index]?.box.isobaric === true),
    ], { folded: true }),
    group('', [], { note: say('caution') }),
  ];
}

/**
 * Changing the type may begin several values at once, some of them assumed.
 * @param {Store} store @param {Model} m @param {number} index @param {import('./box-starts.js').BoxType} type
 * @returns {[string, any][]} nothing that is left to be set
 */
function changeType(store, m, index, type) {
  if (!Object.hasOwn(BOX_TYPES, type)) return [];
  const d = m.driverDerived(index) ?? {};
  store.replace(withType(m.job, index, type, { fs: d.fs_hz, sd: d.sd_cm2, mms: d.mms_g, xmax: d.xmax_mm }), say('change_type', { type: say(/** @type {any} */ (`type_${type}`)) }));
  return [];
}

/** A list whose words need the whole line. @param {Field} field @returns {Field} */
function wide(field) {
  field.root.classList.add('whole-line');
  return field;
}

/** @param {number} index @returns {Field} */
function picture(index) {
  const drawn = new BoxPicture();
  return {
    root: el('div', { class: 'box-picture' }, drawn.root),
    update(m) {
      const input = sectionInput(m, index);
      if (input) drawn.update(input, m.system);
    },
  };
}

/** @param {Model} m @param {number} index */
function sagWords(m, index) {
  const sub = m.job.subs[index];
  const derived = /** @type {(import('../views/model.js').SubDerived & {sag_mm?: number})|undefined} */ (m.subDerived(index));
  if (!sub || !derived?.sag_mm || !['up', 'down'].includes(sub.place.fires)) return '';
  const mm = formatWithUnit(derived.sag_mm, 'fine_mm', m.system);
  return derived.xmax_mm ? say('sag_share', { mm, pct: formatNumber(100 * derived.sag_mm / derived.xmax_mm, 0) }) : mm;
}

/** @param {Model} model @param {number} index @returns {[number, string][]} */
function linings(model, index) {
  /** @type {[number, string][]} */
  const usual = [[0, say('lining_0')], [0.3, say('lining_3')], [0.7, say('lining_7')]];
  const own = model.job.subs[index]?.box.lining ?? 0;
  return usual.some(([v]) => v === own) ? usual : [...usual, [own, say('lining_own', { pct: formatNumber(own * 100, 0) })]];
}
