// The jobs kept on this machine: seen, opened, named, copied, deleted and
// brought back.

import { forgetJob, keepJob, keptJobs, newId } from '../autosave.js';
import { el, setText } from '../dom.js';
import { locale } from '../format.js';
import { JobPicture } from '../ways/car-picture.js';
import { say } from './words.js';

/** @typedef {import('../autosave.js').KeptJob} KeptJob */

/**
 * @typedef {object} JobsParts
 * @property {import('../storage.js').Storage} storage
 * @property {() => string} current id of the job that is open
 * @property {(kept: KeptJob) => Promise<void>} open
 * @property {(title: string) => void} renameCurrent
 * @property {() => import('../units.js').System} system
 */

const when = new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeStyle: 'short' });

export class JobsDialog {
  /** @param {JobsParts} parts */
  constructor(parts) {
    this.parts = parts;
    this.list = el('ul', { class: 'kept-jobs' });
    this.told = el('p', { class: 'told', role: 'status' });
    this.root = el('dialog', { class: 'paper-dialog wide', 'aria-labelledby': 'jobs-title', onclose: () => this.root.remove() },
      el('h2', { id: 'jobs-title' }, say('jobs_title')),
      el('p', { class: 'soft' }, say(parts.storage.kind === 'memory' ? 'jobs_memory' : 'jobs_lead')),
      this.told, this.list,
      el('div', { class: 'choices-row' }, el('button', { type: 'button', class: 'quiet', onclick: () => this.root.close() }, say('close'))));
  }

  async show() {
    document.body.append(this.root);
    await this.#fill();
    this.root.showModal();
  }

  async #fill() {
    const jobs = await keptJobs(this.parts.storage).catch((error) => { this.#failed(error); return []; });
    this.list.replaceChildren(...jobs.map((kept) => this.#row(kept)));
    if (!jobs.length) this.list.append(el('li', { class: 'soft' }, say('jobs_none')));
  }

  /** @param {KeptJob} kept */
  #row(kept) {
    const { parts } = this;
    const here = kept.id === parts.current();
    const title = kept.title || say('untitled');
    const picture = new JobPicture('');
    picture.draw(kept.job, parts.system(), 200, 84);
    const name = el('input', { type: 'text', maxlength: 200, autocomplete: 'off', 'aria-label': `${say('jobs_rename')}: ${title}`, onchange: () => this.#rename(kept, name.value) });
    name.value = kept.title;
    /** @param {() => Promise<void>} act */
    const run = (act) => () => act().then(() => this.#fill()).catch((error) => this.#failed(error));
    return el('li', { class: here ? 'here' : '' }, picture.root,
      el('div', { class: 'kept-words' }, name, el('span', { class: 'soft' }, here ? say('jobs_now') : say('jobs_saved', { when: when.format(kept.saved) }))),
      el('div', { class: 'kept-acts' },
        el('button', { type: 'button', disabled: here, 'aria-label': `${say('jobs_open')}: ${title}`, onclick: () => parts.open(kept).then(() => this.root.close()).catch((error) => this.#failed(error)) }, say('jobs_open')),
        el('button', { type: 'button', class: 'quiet', 'aria-label': `${say('jobs_copy')}: ${title}`, onclick: run(() => this.#copy(kept)) }, say('jobs_copy')),
        el('button', { type: 'button', class: 'quiet', disabled: here, 'aria-label': `${say('jobs_delete')}: ${title}`, onclick: run(() => this.#remove(kept)) }, say('jobs_delete'))));
  }

  /** @param {KeptJob} kept @param {string} title */
  async #rename(kept, title) {
    if (kept.id === this.parts.current()) {
      this.parts.renameCurrent(title);
      return;
    }
    await keepJob(this.parts.storage, { ...kept, title, job: { ...kept.job, title } }).catch((error) => this.#failed(error));
  }

  /** @param {KeptJob} kept */
  async #copy(kept) {
    const title = say('jobs_copied', { title: kept.title || say('untitled') });
    await keepJob(this.parts.storage, { ...kept, id: newId(), title, saved: Date.now(), job: { ...kept.job, title } });
  }

  /** @param {KeptJob} kept */
  async #remove(kept) {
    await forgetJob(this.parts.storage, kept.id);
    const back = el('button', {
      type: 'button', class: 'quiet', onclick: () => keepJob(this.parts.storage, kept).then(() => { this.told.replaceChildren(); return this.#fill(); }).catch((error) => this.#failed(error)),
    }, say('jobs_undo'));
    this.told.replaceChildren(say('jobs_deleted', { title: kept.title || say('untitled') }), ' ', back);
    back.focus();
  }

  /** @param {unknown} error */
  #failed(error) {
    setText(this.told, say('jobs_failed', { why: error instanceof Error ? error.message : String(error) }));
  }
}
