// A job as a link: made, copied, and opened again without touching the job
// that the reader has.

import { el, setText } from '../dom.js';
import { say } from './words.js';

/** @typedef {import('../engine.js').Engine} Engine */
/** @typedef {import('../job.js').Job} Job */

/** Some messengers cut links above this. */
export const LONG_LINK = 2000;

const MARK = '#j=';

/**
 * The packed job of an address, or null. Read from the whole address: one
 * engine decodes what its hash property returns.
 * @param {string} href
 */
export function packedIn(href) {
  const at = href.indexOf(MARK);
  return at < 0 ? null : href.slice(at + MARK.length);
}

/**
 * @param {Engine} engine
 * @param {Job} job
 * @param {string} href of the page
 * @returns {Promise<string>} rejects with the engine's sentence
 */
export async function linkFor(engine, job, href) {
  const { reply } = await engine.call('pack', { job });
  return href.replace(/#.*$/s, '') + MARK + reply.text;
}

/**
 * Offers the link of a job: to copy, or to the device's own way of sending.
 * @param {Engine} engine
 * @param {Job} job
 */
export async function offerLink(engine, job) {
  const link = await linkFor(engine, job, location.href);
  const field = el('textarea', { class: 'link', readonly: true, rows: 4, 'aria-label': say('share_label'), spellcheck: 'false' });
  field.value = link;
  const told = el('p', { class: 'told', role: 'status' });
  const copy = el('button', {
    type: 'button', class: 'main', onclick: async () => {
      try {
        await navigator.clipboard.writeText(link);
        setText(told, say('share_copied'));
      } catch {
        field.focus();
        field.select();
        setText(told, say('share_select'));
      }
    },
  }, say('share_copy'));
  const send = 'share' in navigator && location.protocol !== 'file:'
    ? el('button', { type: 'button', onclick: () => navigator.share({ title: job.title, url: link }).catch(() => {}) }, say('share_send')) : null;
  const note = location.protocol === 'file:' ? say('share_file') : say(link.length > LONG_LINK ? 'share_long' : 'share_length', { n: link.length });
  const dialog = el('dialog', { class: 'paper-dialog', 'aria-labelledby': 'share-title', onclose: () => dialog.remove() },
    el('h2', { id: 'share-title' }, say('share_title')), el('p', {}, say('share_lead')), field, el('p', { class: 'soft' }, note), told,
    el('div', { class: 'choices-row' }, copy, send, el('button', { type: 'button', class: 'quiet', onclick: () => dialog.close() }, say('close'))));
  document.body.append(dialog);
  dialog.showModal();
}

/**
 * Reads the job of a link and asks before it is opened.
 * @param {Engine} engine
 * @param {string} packed
 * @returns {Promise<Job|null>} null where the reader leaves it; rejects with the engine's sentence where it is no job
 */
export async function askToOpen(engine, packed) {
  const { reply } = await engine.call('unpack', { text: packed });
  /** @type {Job} */
  const job = reply.job;
  return new Promise((resolve) => {
    const open = el('button', { type: 'button', class: 'main', onclick: () => { dialog.returnValue = 'open'; dialog.close('open'); } }, say('offer_open'));
    const dialog = el('dialog', {
      class: 'paper-dialog', 'aria-labelledby': 'offer-title', onclose: () => {
        dialog.remove();
        resolve(dialog.returnValue === 'open' ? job : null);
      },
    }, el('h2', { id: 'offer-title' }, say('offer_title')),
    el('p', {}, say('offer_lead', { title: job.title || say('untitled') })),
    el('div', { class: 'choices-row' }, open, el('button', { type: 'button', onclick: () => dialog.close('leave') }, say('offer_leave'))));
    document.body.append(dialog);
    dialog.showModal();
  });
}
