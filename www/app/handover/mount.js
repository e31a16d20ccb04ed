// Puts the hand-over into the page's Job menu, and opens shared links.

import { keptJob, newId } from '../autosave.js';
import { el } from '../dom.js';
import { fileName, saveFile } from '../files.js';
import { JobsDialog } from './jobs.js';
import { drawingPNG, standaloneSVG } from './pictures.js';
import { askToOpen, offerLink, packedIn } from './share.js';
import { JobSheet } from './sheet.js';
import { say } from './words.js';

/**
 * @typedef {object} HandoverParts
 * @property {import('../engine.js').Engine} engine
 * @property {import('../store.js').Store} store
 * @property {import('../storage.js').Storage} storage
 * @property {import('../autosave.js').Autosave} saver
 * @property {{units: import('../units.js').System}} prefs
 * @property {HTMLElement} menu the list of the Job menu
 * @property {() => string} seat where it is heard
 * @property {(say: string, brief?: boolean) => void} notice brief is for what only reassures
 */

/**
 * @param {HandoverParts} parts
 * @returns {{openLink: () => Promise<void>, adopt: (job: import('../job.js').Job, label: string) => Promise<void>}}
 */
export function mountHandover({ engine, store, storage, saver, prefs, menu, seat, notice }) {
  /** @param {unknown} error */
  const failed = (error) => notice(error instanceof Error ? error.message : String(error));

  /**
   * Makes another job the open one; the one that was open stays kept.
   * @param {import('../job.js').Job} job
   * @param {string} label
   * @param {string} [id]
   */
  async function adopt(job, label, id = newId()) {
    await saver.flush();
    saver.moveTo(id);
    store.replace(job, label);
    await saver.flush();
  }

  async function openLink() {
    const packed = packedIn(location.href);
    if (packed === null) return;
    // The address must not offer the same job again on the next visit.
    history.replaceState(null, '', location.href.replace(/#.*$/s, '#/job'));
    try {
      const job = await askToOpen(engine, packed);
      if (!job) return;
      await adopt(job, say('offer_title'));
      notice(say('offer_opened', { title: job.title || say('untitled') }), true);
    } catch (error) {
      notice(say('offer_refused', { why: error instanceof Error ? error.message : String(error) }));
    }
  }

  /** @param {string} selector @returns {SVGSVGElement} */
  const drawing = (selector) => /** @type {SVGSVGElement} */ (document.querySelector(selector));
  const name = (/** @type {string} */ ending) => fileName(store.job.title, ending);

  /** @type {[string, () => unknown][]} */
  const items = [
    [say('menu_sheet'), () => new JobSheet(engine, prefs.units, () => menu.closest('details')?.querySelector('summary')?.focus()).open(store.job, seat())],
    [say('menu_share'), () => offerLink(engine, store.job)],
    [say('menu_jobs'), () => saver.flush().then(() => new JobsDialog({
      storage, current: () => saver.id, system: () => prefs.units,
      renameCurrent: (title) => store.set('/title', title),
      async open(kept) {
        const fresh = (await keptJob(storage, kept.id)) ?? kept;
        await adopt(fresh.job, say('jobs_open'), kept.id);
        notice(say('jobs_opened', { title: fresh.title || say('untitled') }), true);
      },
    }).show())],
    [say('menu_svg'), () => saveFile(name('svg'), standaloneSVG(drawing('.stage svg')), 'image/svg+xml')],
    [say('menu_png'), async () => saveFile(name('png'), await drawingPNG(drawing('.stage svg')), 'image/png')],
    [say('menu_curves_svg'), () => saveFile(name('curves.svg'), standaloneSVG(drawing('.chart.large .plot svg')), 'image/svg+xml')],
    [say('menu_curves_png'), async () => saveFile(name('curves.png'), await drawingPNG(drawing('.chart.large .plot svg')), 'image/png')],
  ];
  menu.append(...items.map(([text, act]) => el('button', {
    type: 'button', onclick: () => {
      menu.closest('details')?.removeAttribute('open');
      Promise.resolve().then(act).catch(failed);
    },
  }, text)));
  return { openLink, adopt };
}
