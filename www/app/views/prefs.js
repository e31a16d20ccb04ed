// How the reader likes the page: kept on their machine, never in the job.

import { speak } from '../phrases.js';

/**
 * @typedef {object} Prefs
 * @property {import('../units.js').System} units
 * @property {'auto'|'light'|'dark'|'sun'} theme
 * @property {import('../phrases.js').Dialect} dialect
 */

const KEY = 'bootfloor.prefs';

/** @returns {Prefs} */
export function readPrefs() {
  /** @type {Prefs} */
  const prefs = { units: 'metric', theme: 'auto', dialect: 'british' };
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? '{}');
    if (kept.units === 'imperial') prefs.units = 'imperial';
    if (['light', 'dark', 'sun'].includes(kept.theme)) prefs.theme = kept.theme;
    if (kept.dialect === 'american') prefs.dialect = 'american';
  } catch {
    // No storage: the page starts as it does for everyone.
  }
  return prefs;
}

/** @param {Prefs} prefs */
export function keepPrefs(prefs) {
  try {
    localStorage.setItem(KEY, JSON.stringify(prefs));
  } catch {
    // No storage: the choice lasts as long as the page.
  }
}

/** Puts the choices that the whole page shares into force. @param {Prefs} prefs */
export function applyPrefs(prefs) {
  speak(prefs.dialect);
  if (prefs.theme === 'auto') delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = prefs.theme;
}
