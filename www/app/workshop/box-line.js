// The pieces of a quarter-wave line, from its closed end to its mouth.

import { el } from '../dom.js';
import { formatWithUnit } from '../format.js';
import { factField, group, numberField } from '../views/fields.js';
import { lineLength, lineLitres } from './box-geometry.js';
import { say } from './words.js';

/**
 * @typedef {import('../views/model.js').Model} Model
 * @typedef {import('../views/fields.js').Field} Field
 */

/**
 * @param {import('../store.js').Store} store
 * @param {number} index
 * @returns {Field}
 */
export function lineField(store, index) {
  const at = `/subs/${index}/box`;
  const line = (/** @type {Model} */ m) => m.job.subs[index]?.box.line ?? [];
  const pieces = el('div', { class: 'pieces' });
  /** @type {Field[]} */
  let fields = [];
  let made = '';

  const add = el('button', { type: 'button', onclick: () => {
    const now = store.job.subs[index]?.box.line ?? [];
    const last = now[now.length - 1];
    store.set(`${at}/line/-`, { length_mm: last?.length_mm ?? 1000, start_cm2: last?.end_cm2 ?? 400, end_cm2: last?.end_cm2 ?? 400, stuffing: 0 }, { label: say('line_add') });
  } }, say('line_add'));

  /** @type {Field} */
  const list = {
    root: el('div', {}, pieces, add),
    update(m) {
      const key = `${line(m).length}/${m.system}`;
      if (key !== made) {
        made = key;
        fields = line(m).flatMap((_, i) => piece(i));
        pieces.replaceChildren(...line(m).map((_, i) => {
          const name = say('line_piece', { n: i + 1 });
          const drop = el('button', { type: 'button', class: 'quiet', 'aria-label': say('line_drop', { n: i + 1 }), onclick: () => store.set(`${at}/line/${i}`, undefined, { label: say('line_drop', { n: i + 1 }) }) }, '×');
          return el('div', { class: 'station piece', role: 'group', 'aria-label': name }, el('p', { class: 'piece-name' }, name, ' ', line(m).length > 1 ? drop : null), ...fields.slice(i * 4, i * 4 + 4).map((f) => f.root));
        }));
      }
      for (const f of fields) f.update(m);
    },
  };

  /** @param {number} i */
  const piece = (i) => {
    const within = say('line_piece', { n: i + 1 });
    return [
      numberField(store, { pointer: `${at}/line/${i}/length_mm`, label: say('line_length'), within, quantity: 'mm' }),
      numberField(store, { pointer: `${at}/line/${i}/start_cm2`, label: say('line_start'), within, quantity: 'cm2' }),
      numberField(store, { pointer: `${at}/line/${i}/end_cm2`, label: say('line_end'), within, quantity: 'cm2' }),
      numberField(store, { pointer: `${at}/line/${i}/stuffing`, label: say('line_stuffing'), within, quantity: 'plain' }),
    ];
  };

  return group(say('line'), [
    list,
    numberField(store, { pointer: `${at}/tap_mm`, label: say('line_tap'), quantity: 'mm', slide: [0, 4000] }),
    factField(say('line_total'), (m) => formatWithUnit(lineLength(line(m)), 'mm', m.system)),
    factField(say('line_air'), (m) => formatWithUnit(lineLitres(line(m)), 'litres', m.system)),
  ]);
}
