// The channels as a processor wants them typed in: a row for each setting, a
// column for each channel. Pure rows first, then the table and its text.

import { el, setText } from '../dom.js';
import { formatHz, formatNumber, formatWithUnit } from '../format.js';
import { say as sayShared } from '../words.js';
import { say } from './words.js';

/** Speed of sound at 20 °C and 50 % humidity, m/s (Cramer, JASA 93 (1993) 2510); only for delays shown as a distance. */
const SPEED = 344;
const SAMPLE_HZ = 48000;

/**
 * @param {{name: string, channel: import('../job.js').Channel}[]} channels
 * @param {import('../units.js').System} system
 * @returns {{name: string, cells: string[]}[]}
 */
export function settingRows(channels, system) {
  const on = channels.map((c) => c.channel.filters.filter((f) => !f.off));
  const passes = (/** @type {string} */ kind) => on.map((list) => list.filter((f) => f.kind === kind).map((f) => say('set_filter', {
    shape: sayShared(/** @type {any} */ (f.shape ?? 'butterworth')), slope: 6 * (f.order ?? 4), hz: formatHz(f.freq_hz),
  })).join('; ') || say('set_none'));
  const bands = on.map((list) => list.filter((f) => f.kind !== 'highpass' && f.kind !== 'lowpass'));
  const rows = [
    { name: say('set_highpass'), cells: passes('highpass') },
    { name: say('set_lowpass'), cells: passes('lowpass') },
    { name: say('set_delay'), cells: channels.map(({ channel }) => formatWithUnit(channel.delay_ms, 'milliseconds', system)) },
    { name: `${say('set_delay')}, ${say('set_path')}`, cells: channels.map(({ channel }) => formatWithUnit(channel.delay_ms * SPEED, 'mm', system)) },
    { name: `${say('set_delay')}, ${say('set_samples')}`, cells: channels.map(({ channel }) => say('set_sample', { n: formatNumber(channel.delay_ms * SAMPLE_HZ / 1000, 0) })) },
    { name: say('set_level'), cells: channels.map(({ channel }) => formatWithUnit(channel.gain_db, 'decibels', system)) },
    { name: say('set_polarity'), cells: channels.map(({ channel }) => sayShared(channel.inverted ? 'inverted' : 'normal')) },
  ];
  const most = Math.max(0, ...bands.map((b) => b.length));
  for (let i = 0; i < most; i += 1) {
    rows.push({ name: say('set_eq', { n: i + 1 }), cells: bands.map((b) => { const f = b[i]; return f ? bandWords(f) : say('set_none'); }) });
  }
  return rows;
}

/** @param {import('../job.js').Filter} f */
export function bandWords(f) {
  return say('eq_band', { kind: say(/** @type {any} */ (f.kind)), hz: formatHz(f.freq_hz), gain: formatNumber(f.gain_db ?? 0, 1), q: formatNumber(f.q ?? 0.707, 2) });
}

export class SettingsTable {
  constructor() {
    this.table = el('table', { class: 'settings' });
    this.said = el('p', { class: 'told', role: 'status' });
    this.text = '';
    this.root = el('section', { class: 'group' }, el('h3', {}, say('set_title')), el('div', { class: 'scroll', tabindex: 0, role: 'region', 'aria-label': say('set_title') }, this.table),
      el('button', { type: 'button', onclick: () => this.#copy() }, say('set_copy')), this.said);
  }

  /** @param {{name: string, channel: import('../job.js').Channel}[]} channels @param {import('../units.js').System} system */
  update(channels, system) {
    const rows = settingRows(channels, system);
    const text = [['', ...channels.map((c) => c.name)], ...rows.map((r) => [r.name, ...r.cells])].map((r) => r.join('\t')).join('\n');
    if (text === this.text) return;
    this.text = text;
    this.table.replaceChildren(
      el('thead', {}, el('tr', {}, el('td'), ...channels.map((c) => el('th', { scope: 'col' }, c.name)))),
      el('tbody', {}, ...rows.map((r) => el('tr', {}, el('th', { scope: 'row' }, r.name), ...r.cells.map((c) => el('td', {}, c))))));
  }

  async #copy() {
    try {
      await navigator.clipboard.writeText(this.text);
      setText(this.said, say('set_copied'));
    } catch {
      setText(this.said, say('set_copy_failed'));
    }
  }
}
