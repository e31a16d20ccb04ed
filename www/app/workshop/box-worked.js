// What follows from a box: resonance, damping, port lengths, air speed.

import { extremes } from '../chart-path.js';
import { formatHz, formatNumber, formatWithUnit } from '../format.js';
import { factField, group } from '../views/fields.js';
import { reads } from './box-starts.js';
import { say } from './words.js';

/**
 * @typedef {import('../views/model.js').Model} Model
 * @typedef {import('../views/fields.js').Field} Field
 */

/** Air speed that is often heard, m/s: 5 % of the speed of sound, after Small (JAES 21 (1973) 438). */
const HEARD = 17;

/**
 * @param {number} index
 * @param {string} type
 * @returns {Field[]}
 */
export function workedOut(index, type) {
  const tuned = reads(type, 'port') || reads(type, 'front') || type === 'passive_radiator' || type === 'line';
  return [group(say('worked_out'), [
    factField(say(tuned ? 'out_tuned' : 'out_system'), (m) => { const hz = m.subDerived(index)?.system_hz; return hz ? formatHz(hz) : ''; }),
    factField(say('out_qtc'), (m) => { const q = m.subDerived(index)?.qtc; return q ? formatNumber(q, 2) : ''; }),
    ...(type === 'vented' ? [factField(say('out_length'), (m) => mm(m, m.subDerived(index)?.port_length_mm?.[0]))] : []),
    ...(reads(type, 'front') ? [factField(say('out_front_length'), (m) => mm(m, m.subDerived(index)?.port_length_mm?.[0]))] : []),
    factField(say('out_speed'), (m) => speedWords(m, index)),
  ], { when: (m) => m.subDerived(index) !== undefined })];
}

/** @param {Model} m @param {number|undefined} v */
function mm(m, v) {
  return v ? formatWithUnit(v, 'mm', m.system) : '';
}

/** @param {Model} m @param {number} index */
function speedWords(m, index) {
  const freq = m.curve('freq');
  const speed = m.curve(`air_speed/sub/${index}`);
  if (!freq || !speed) return '';
  const { high, highAt } = extremes(speed);
  if (!(high > 0)) return '';
  return say(high > HEARD ? 'out_speed_loud' : 'out_speed_value', { v: formatWithUnit(high, 'air_speed', m.system), hz: formatHz(freq[highAt] ?? 0) });
}
