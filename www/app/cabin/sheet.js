// The car's sheet: body style, shape, what it is made of, who is on board,
// what stands open, the boot, and what a measurement taught.

import { el, freshId, setAttr, setText } from '../dom.js';
import { formatHz, formatNumber, formatWithUnit } from '../format.js';
import { choiceField, factField, group, numberField } from '../views/fields.js';
import { say as sayShared, sayOf as sayShared2 } from '../words.js';
import { bodyField } from './body.js';
import { bootFields } from './sheet-boot.js';
import { followers } from './follow.js';
import { OPENING_CHOICES, choiceOf, openingFor } from './openings.js';
import { asCuboid, asStations, measures, shiftMarks } from './shape.js';
import { say, sayOf } from './words.js';

/** @typedef {import('../views/model.js').Model} Model */
/** @typedef {import('../views/fields.js').Field} Field */
/** @typedef {import('../store.js').Store} Store */

/** Asks the page to open the measurement. Bubbles from the button. */
export const LEARN_EVENT = 'bootfloor-learn';

/** Plain steps, cm² and per cent of the air's compliance. Common practice, no source. */
const TIGHT = [40, 100, 200, 400];
const GIVE = [5, 10, 20, 40];

/**
 * @param {Store} store
 * @param {Model} model
 * @param {import('../views/model.js').BodyPreset[]} bodies
 * @param {{key: string, name: string}[]} finishes
 * @returns {Field[]}
 */
export function carSheet(store, model, bodies, finishes) {
  const cabin = (/** @type {Model} */ m) => m.reply?.derived?.cabin;
  return [
    bodyField(store, bodies),
    group(say('shape'), [
      shapeField(store),
      factField(say('measure'), (m) => measuredSoFar(m)),
      factField(sayShared('cabin_volume'), (m) => { const v = cabin(m)?.volume_m3; return v ? formatWithUnit(v, 'air_m3', m.system) : ''; }),
      factField(sayShared('unity'), (m) => { const v = cabin(m)?.unity_hz; return v ? formatHz(v) : ''; }),
      factField(sayShared('half_wave'), (m) => { const v = cabin(m)?.half_wave_hz; return v ? formatHz(v) : ''; }),
      factField(sayShared('first_modes'), (m) => (cabin(m)?.modes_hz ?? []).slice(0, 3).map(formatHz).join(', ')),
    ]),
    learnedField(store),
    group(say('made_of'), [
      choiceField(store, { pointer: '/car/finish/leak_cm2', label: say('tightness'), choices: TIGHT.map((v) => [v, sayOf('tight', v)]) }),
      numberField(store, { pointer: '/car/finish/leak_cm2', label: say('leak'), quantity: 'cm2', slide: [0, 500] }),
      choiceField(store, { pointer: '/car/finish/panel_give_pct', label: say('give'), choices: GIVE.map((v) => [v, sayOf('give', v)]) }),
      numberField(store, { pointer: '/car/finish/panel_give_pct', label: say('give_pct'), within: say('give'), quantity: 'percent', slide: [0, 60] }),
      numberField(store, { pointer: '/car/finish/glass_pct', label: say('glass'), quantity: 'percent', slide: [0, 80] }),
      ...(finishes.length ? ['floor', 'roof', 'sides', 'front', 'rear'].map((side) => choiceField(store, {
        pointer: `/car/finish/${side}`, label: sayOf('surface', side), list: true, choices: finishes.map((f) => [f.key, f.name]),
      })) : []),
    ]),
    group(say('people'), [peopleField(store, model)]),
    group(say('open'), OPENING_CHOICES.flatMap((choice) => openingFields(store, choice))),
    ...bootFields(store),
    group(sayShared('air'), [numberField(store, { pointer: '/air/temperature_c', label: sayShared('temperature'), quantity: 'celsius' })]),
  ];
}

/** @param {Model} m */
function measuredSoFar(m) {
  const all = measures(m.job.car.cabin);
  return say('measures_left', { n: all.filter((q) => !m.isAssumed(q.pointer)).length, of: all.length });
}

/** Which way the shape is described. @param {Store} store @returns {Field} */
function shapeField(store) {
  const name = freshId('shape');
  const input = (/** @type {'cuboid'|'stations'} */ shape) => el('input', { type: 'radio', name, onchange: () => describe(store, shape) });
  const cuboid = input('cuboid');
  const stations = input('stations');
  return {
    root: el('div', { class: 'field pick spread', role: 'radiogroup', 'aria-label': say('shape') }, el('div', { class: 'segments' },
      el('label', { class: 'segment' }, stations, el('span', {}, say('shape_stations'))),
      el('label', { class: 'segment' }, cuboid, el('span', {}, say('shape_cuboid'))))),
    update(m) {
      cuboid.checked = m.job.car.cabin.shape !== 'stations';
      stations.checked = !cuboid.checked;
    },
  };
}

/** @param {Store} store @param {'cuboid'|'stations'} shape */
function describe(store, shape) {
  const { job } = store;
  const { cabin } = job.car;
  if (cabin.shape === shape) return;
  const marks = new Set(job.assumed ?? []);
  const known = (/** @type {string[]} */ pointers) => pointers.some((p) => !marks.has(p));
  const changes = shape === 'cuboid'
    ? asCuboid(cabin, known(['length_mm', 'width_mm', 'height_mm'].map((k) => `/car/cabin/${k}`)))
    : asStations(cabin, known((cabin.stations ?? []).flatMap((_, i) => ['x_mm', 'floor_mm', 'roof_mm', 'width_mm'].map((k) => `/car/cabin/stations/${i}/${k}`))));
  const worked = changes.filter(([p]) => p !== '/car/cabin/shape');
  // What was worked out from the other description is assumed, all of it.
  const list = changes.find(([p]) => p === '/car/cabin/stations')?.[1] ?? [];
  const fresh = [...worked.filter(([p]) => p !== '/car/cabin/stations').map(([p]) => p),
    ...list.flatMap((/** @type {object} */ s, /** @type {number} */ i) => Object.keys(s).map((k) => `/car/cabin/stations/${i}/${k}`))];
  store.setAll([['/car/cabin/shape', shape]], {
    label: say('shape'), follow: [...worked, ...followers(job, changes), ['/assumed', [...new Set([...marks, ...fresh])].filter((p) => p !== '/car/cabin/shape')]],
  });
}

/** Touch a name to put somebody in the seat. @param {Store} store @param {Model} model @returns {Field} */
function peopleField(store, model) {
  const buttons = model.job.car.seats.map((s, i) => el('button', {
    type: 'button', class: 'cab-toggle', onclick: () => store.set(`/car/seats/${i}/occupied`, !store.job.car.seats[i]?.occupied, { label: sayShared2('seat', s.id) }),
  }, sayShared2('seat', s.id)));
  return {
    root: el('div', { class: 'field cab-toggles', role: 'group', 'aria-label': say('people') }, ...buttons),
    update(m) {
      m.job.car.seats.forEach((s, i) => { const b = buttons[i]; if (b) setAttr(b, 'aria-pressed', String(s.occupied)); });
    },
  };
}

/** Something that can stand open, and, while it does, how far. @param {Store} store @param {import('./openings.js').OpeningChoice} choice @returns {Field[]} */
function openingFields(store, choice) {
  const name = say(/** @type {import('./words.js').Key} */ (`open_${choice}`));
  const index = (/** @type {Model|{job: import('../job.js').Job}} */ m) => (m.job.car.openings ?? []).findIndex((o) => choiceOf(o) === choice);
  const button = el('button', { type: 'button', class: 'cab-toggle wide', onclick: () => toggle() }, name);
  const toggle = () => {
    const { job } = store;
    const list = job.car.openings ?? [];
    const i = index({ job });
    if (i >= 0) {
      store.setAll([], { label: name, follow: [['/car/openings', list.filter((_, k) => k !== i)], ['/assumed', shiftMarks(job.assumed ?? [], '/car/openings', i, -1)]] });
      return;
    }
    const fresh = ['area_cm2', 'x_mm', 'y_mm', 'z_mm'].map((k) => `/car/openings/${list.length}/${k}`);
    store.setAll([], { label: name, follow: [['/car/openings', [...list, openingFor(job.car, choice)]], ['/assumed', [...(job.assumed ?? []), ...fresh]]] });
  };
  // Its place in the list moves as others come and go.
  /** @type {{at: number, field: Field}|null} */
  let area = null;
  const holder = el('div', {});
  return [{
    root: el('div', { class: 'field cab-opening' }, button),
    update: (m) => setAttr(button, 'aria-pressed', String(index(m) >= 0)),
  }, {
    root: holder,
    update(m) {
      const at = index(m);
      holder.hidden = at < 0;
      if (at < 0) return;
      if (area?.at !== at) {
        area = { at, field: numberField(store, { pointer: `/car/openings/${at}/area_cm2`, label: say('open_area'), within: name, quantity: 'cm2', slide: choice === 'roof_off' ? [1000, 30000] : choice === 'tailgate' ? [500, 12000] : [50, 4000], log: true }) };
        holder.replaceChildren(area.field.root);
      }
      area.field.update(m);
    },
  }];
}

/** What was learned, how to take it away, and the way to learn. @param {Store} store @returns {Field} */
function learnedField(store) {
  const what = el('p', {});
  const back = el('button', { type: 'button', onclick: () => store.set('/car/learned', undefined, { label: say('put_back') }) }, say('put_back'));
  const on = el('p', {});
  const kept = el('div', { class: 'cab-learned' }, on, what, back);
  const go = el('button', { type: 'button', class: 'cab-go', onclick: () => go.dispatchEvent(new CustomEvent(LEARN_EVENT, { bubbles: true })) }, say('learn'));
  const times = (/** @type {number} */ v) => formatNumber(v, 2);
  const field = group('', [{ root: el('div', {}, kept, el('p', { class: 'cab-lead' }, say('learn_lead')), go), update() {} }]);
  return {
    root: field.root,
    update(m) {
      const l = m.job.car.learned;
      kept.hidden = !l;
      if (!l) return;
      setText(on, `${say('learned_on', { on: l.on })}. ${say('learned_kept')}`);
      setText(what, [say('learned_what', { leak: times(l.leak_scale), damping: times(l.damping_scale), air: times(l.volume_scale) }), ...(l.level_db ? [say('plus_db', { v: formatNumber(l.level_db, 1) })] : [])].join('; '));
    },
  };
}

