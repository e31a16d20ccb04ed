// The cabin and its boot: body style, tape measures, what it is made of.

import { el, setAttr, svg } from '../dom.js';
import { carOutline, outlineInput } from '../car-outline.js';
import { pathData, px, py } from '../car-path.js';
import { formatHz, formatWithUnit } from '../format.js';
import { getAt, within } from '../pointer.js';
import { say, sayOf } from '../words.js';
import { choiceField, factField, group, numberField } from './fields.js';

/** @typedef {import('./model.js').Model} Model */
/** @typedef {import('../store.js').Store} Store */

/**
 * @param {Store} store
 * @param {Model} model
 * @param {import('./model.js').BodyPreset[]} bodies
 * @param {{key: string, name: string}[]} finishes
 * @returns {import('./fields.js').Field[]}
 */
export function cabinSheet(store, model, bodies, finishes) {
  const stations = model.job.car.cabin.shape === 'stations' ? model.job.car.cabin.stations ?? [] : [];
  const mm = (/** @type {string} */ pointer, /** @type {string} */ label) => numberField(store, { pointer, label, quantity: 'mm' });
  return [
    bodyField(store, bodies),
    group(say('part_cabin'), [
      factField(say('cabin_volume'), (m) => { const v = m.reply?.derived?.cabin?.volume_m3; return v ? formatWithUnit(v, 'air_m3', m.system) : ''; }),
      ...(stations.length ? [] : [
        mm('/car/cabin/length_mm', say('cabin_length')), mm('/car/cabin/width_mm', say('cabin_width')), mm('/car/cabin/height_mm', say('cabin_height')),
      ]),
      factField(say('unity'), (m) => { const v = m.reply?.derived?.cabin?.unity_hz; return v ? formatHz(v) : ''; }),
      factField(say('first_modes'), (m) => (m.reply?.derived?.cabin?.modes_hz ?? []).slice(0, 3).map(formatHz).join(', ')),
    ]),
    ...(stations.length ? [stationTable(store, stations.length)] : []),
    group(say('boot'), [
      mm('/car/boot/x_mm', say('boot_x')), mm('/car/boot/length_mm', say('boot_length')), mm('/car/boot/width_mm', say('boot_width')),
      mm('/car/boot/height_mm', say('boot_height')), mm('/car/boot/floor_mm', say('boot_floor')),
      numberField(store, { pointer: '/car/boot/seat_slope_deg', label: say('boot_slope'), quantity: 'degrees' }),
    ], { folded: true }),
    group(say('finish'), [
      numberField(store, { pointer: '/car/finish/leak_cm2', label: say('leak'), quantity: 'cm2', slide: [0, 200] }),
      numberField(store, { pointer: '/car/finish/glass_pct', label: say('glass'), quantity: 'percent' }),
      numberField(store, { pointer: '/car/finish/panel_give_pct', label: say('panel_give'), quantity: 'percent' }),
      ...(finishes.length ? ['floor', 'roof', 'sides', 'front', 'rear'].map((side) => choiceField(store, {
        pointer: `/car/finish/${side}`, label: sayOf('finish', side), list: true, choices: finishes.map((f) => [f.key, f.name]),
      })) : []),
      numberField(store, { pointer: '/air/temperature_c', label: say('temperature'), quantity: 'celsius' }),
    ], { folded: true }),
  ];
}

/**
 * Ten small drawings to choose from.
 * @param {Store} store
 * @param {import('./model.js').BodyPreset[]} bodies
 * @returns {import('./fields.js').Field}
 */
function bodyField(store, bodies) {
  const buttons = bodies.map((b) => {
    const input = el('input', { type: 'radio', name: 'body-style', onchange: () => changeBody(store, b) });
    return { key: b.key, input, root: el('label', { class: 'body' }, input, thumbnail({ ...b, body: b.key }), el('span', {}, sayOf('body', b.key))) };
  });
  const note = el('p', { class: 'caution' }, say('body_change'));
  return {
    root: el('fieldset', { class: 'field bodies', hidden: buttons.length === 0 }, el('legend', {}, say('body')), el('div', { class: 'body-grid' }, ...buttons.map((b) => b.root)), note),
    update(m) {
      for (const b of buttons) b.input.checked = b.key === m.job.car.body;
    },
  };
}

/**
 * Another car under the same system: the box keeps its volume and stands where
 * the new car has room; everything about the new car is assumed again.
 * @param {Store} store
 * @param {import('./model.js').BodyPreset} preset
 */
function changeBody(store, preset) {
  const { key, cabin, boot, finish, seats, door, stand } = preset;
  const { width_mm, height_mm, depth_mm } = stand;
  const { job } = store;
  const car = { body: key, cabin, boot, finish, seats };
  const replaced = ['/car', '/doors/place', ...job.subs.flatMap((_, i) => [`/subs/${i}/place`, ...['width_mm', 'height_mm', 'depth_mm'].map((k) => `/subs/${i}/box/${k}`)])];
  const next = {
    ...job, car,
    doors: { ...job.doors, place: door },
    subs: job.subs.map((s) => ({ ...s, place: stand.place, box: { ...s.box, width_mm, height_mm, depth_mm } })),
  };
  const kept = (job.assumed ?? []).filter((mark) => !replaced.some((p) => within(mark, p)));
  store.replace({ ...next, assumed: [...kept, ...replaced.flatMap((p) => leaves(getAt(next, p), p))] }, say('body'));
}

/**
 * Pointers of all plain values within a value.
 * @param {unknown} value
 * @param {string} pointer
 * @returns {string[]}
 */
function leaves(value, pointer) {
  if (value === null || typeof value !== 'object') return [pointer];
  return Object.entries(value).flatMap(([k, v]) => leaves(v, `${pointer}/${k}`));
}

/**
 * A car a few millimetres long.
 * @param {Parameters<typeof outlineInput>[0]} car
 */
export function thumbnail(car) {
  const width = 104;
  const height = 48;
  const o = carOutline(outlineInput(car));
  const scale = Math.min((width - 4) / (o.box.right - o.box.left), (height - 4) / (o.box.high - o.box.low));
  const p = { x0: width / 2 - (o.box.left + o.box.right) / 2 * scale, y0: height - 3 + o.ground * scale, scale };
  const drawing = svg('svg', { class: 'thumb', viewBox: `0 0 ${width} ${height}`, 'aria-hidden': 'true' },
    svg('path', { class: 'body-line', d: pathData(o.body, p) }),
    ...o.panes.map((pane) => svg('path', { class: 'glass', d: pathData(pane, p) })),
    ...o.wheels.map((w) => svg('circle', { class: 'tyre', cx: px(p, w.x), cy: py(p, w.z), r: w.r * scale })));
  setAttr(drawing, 'focusable', 'false');
  return drawing;
}

/**
 * The cross-sections as a small table of fields: place, floor, roof, width.
 * @param {Store} store
 * @param {number} count
 * @returns {import('./fields.js').Field}
 */
function stationTable(store, count) {
  const rows = Array.from({ length: count }, (_, i) => ['x_mm', 'floor_mm', 'roof_mm', 'width_mm'].map((key) => numberField(store, {
    pointer: `/car/cabin/stations/${i}/${key}`,
    label: sayOf('station', key), quantity: 'mm',
  })));
  return group(say('sections'), rows.map((fields, i) => ({
    root: el('div', { class: 'station', role: 'group', 'aria-label': say('section_n', { n: i + 1 }) }, ...fields.map((f) => f.root)),
    update: (/** @type {Model} */ m) => { for (const f of fields) f.update(m); },
  })), { note: say('sections_note') });
}

/** @param {Model} model */
export function cabinInBrief(model) {
  const v = model.reply?.derived?.cabin?.volume_m3;
  return v ? formatWithUnit(v, 'air_m3', model.system) : sayOf('body', model.job.car.body);
}
