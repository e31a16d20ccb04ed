// The body styles as small drawings to choose from, and what choosing one does.

import { el, setAttr, svg } from '../dom.js';
import { carOutline, outlineInput } from '../car-outline.js';
import { pathData, px, py } from '../car-path.js';
import { getAt, within } from '../pointer.js';
import { say, sayOf } from '../words.js';

/** @typedef {import('../store.js').Store} Store */

/**
 * Ten small drawings to choose from.
 * @param {Store} store
 * @param {import('../views/model.js').BodyPreset[]} bodies
 * @returns {import('../views/fields.js').Field}
 */
export function bodyField(store, bodies) {
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
 * @param {import('../views/model.js').BodyPreset} preset
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
function thumbnail(car) {
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
