// A chart as a table that a screen reader can walk and a spreadsheet can open.

import { el } from './dom.js';
import { formatNumber } from './format.js';
import { say } from './words.js';

/**
 * @typedef {object} Column
 * @property {string} name
 * @property {string} unit
 * @property {ArrayLike<number>} values
 * @property {number} digits
 */

/**
 * Comma-separated values after RFC 4180: point as decimal mark, quoted names.
 * @param {Column[]} columns
 * @returns {string}
 */
export function toCSV(columns) {
  const rows = [columns.map((c) => `"${`${c.name}${c.unit ? ` (${c.unit})` : ''}`.replaceAll('"', '""')}"`).join(',')];
  const n = Math.min(...columns.map((c) => c.values.length));
  for (let i = 0; i < n; i += 1) {
    rows.push(columns.map((c) => {
      const v = /** @type {number} */ (c.values[i]);
      return Number.isFinite(v) ? String(Number(v.toPrecision(7))) : '';
    }).join(','));
  }
  return `${rows.join('\r\n')}\r\n`;
}

/**
 * Shows the table over the page; closing it returns to where the reader was.
 * @param {string} title
 * @param {Column[]} columns
 */
export function showTable(title, columns) {
  const url = URL.createObjectURL(new Blob([toCSV(columns)], { type: 'text/csv' }));
  const n = Math.min(...columns.map((c) => c.values.length));
  const body = el('tbody');
  for (let i = 0; i < n; i += 1) {
    const row = el('tr');
    columns.forEach((c, k) => {
      const v = /** @type {number} */ (c.values[i]);
      const text = Number.isFinite(v) ? formatNumber(v, c.digits, true) : '';
      row.append(k === 0 ? el('th', { scope: 'row' }, text) : el('td', {}, text));
    });
    body.append(row);
  }
  const table = el('table', {},
    el('thead', {}, el('tr', {}, ...columns.map((c) => el('th', { scope: 'col' }, c.unit ? `${c.name}, ${c.unit}` : c.name)))), body);
  const heading = el('h2', { id: 'table-title' }, say('table_title', { chart: title }));
  const dialog = el('dialog', { class: 'table-dialog', 'aria-labelledby': 'table-title' },
    el('header', {}, heading,
      el('a', { class: 'button', href: url, download: `${title.toLowerCase().replaceAll(' ', '-')}.csv` }, say('save_csv')),
      el('button', { type: 'button', onclick: () => dialog.close() }, say('close'))),
    el('div', { class: 'table-scroll', tabindex: 0, role: 'region', 'aria-labelledby': 'table-title' }, table));
  dialog.addEventListener('close', () => {
    URL.revokeObjectURL(url);
    dialog.remove();
  });
  document.body.append(dialog);
  dialog.showModal();
}
