// What to do about it, under the answer: for each limit that stops the sub
// short of what was asked, the smallest changes that free it, each a button.
// Nothing is worked out until somebody asks.

import { el, setText } from '../dom.js';
import { formatNumber } from '../format.js';
import { EngineError } from '../protocol.js';
import { say } from './words.js';

/** How long the job must rest before the remedies are worked out anew, ms. */
const REST = 500;

export class Remedies {
  /**
   * @param {import('../store.js').Store} store
   * @param {import('../engine.js').Engine} engine
   */
  constructor(store, engine) {
    this.store = store;
    this.engine = engine;
    this.timer = 0;
    /** The job that what is shown is about. @type {import('../job.js').Job|null} */
    this.about = null;
    /** @type {AbortController|null} */
    this.going = null;
    this.status = el('p', { class: 'told', role: 'status' });
    this.list = el('div', { class: 'limits' });
    this.root = el('details', { class: 'remedies' }, el('summary', {}, say('remedies')), this.status, this.list);
    this.root.addEventListener('toggle', () => { if (this.root.open) this.#ask(); });
  }

  /** @param {import('../views/model.js').Model} model */
  update(model) {
    this.root.hidden = !model.reply?.answer;
    if (!this.root.open || model.job === this.about) return;
    clearTimeout(this.timer);
    this.list.classList.add('stale');
    this.timer = window.setTimeout(() => this.#ask(), REST);
  }

  async #ask() {
    const { job } = this.store;
    if (job === this.about) return;
    this.about = job;
    this.going?.abort();
    const going = new AbortController();
    this.going = going;
    setText(this.status, say('working'));
    try {
      const { reply } = await this.engine.call('remedies', { job }, { background: true, signal: going.signal });
      if (this.going === going) this.#show(reply);
    } catch (error) {
      if (this.going !== going || (error instanceof EngineError && error.kind === 'cancelled')) return;
      this.about = null;
      setText(this.status, say('trouble', { why: error instanceof Error ? error.message : String(error) }));
    }
  }

  /** @param {import('./replies.js').RemediesReply} reply */
  #show(reply) {
    this.list.classList.remove('stale');
    const limits = reply.limits ?? [];
    setText(this.status, limits.length ? '' : (reply.findings ?? []).find((f) => f.level === 'error')?.say ?? say('remedies_none'));
    this.list.replaceChildren(...limits.map((l) => el('section', {}, el('p', {}, l.say),
      l.remedies.length ? el('ul', {}, ...l.remedies.map((r) => el('li', {}, this.#button(r)))) : el('p', { class: 'told' }, say('remedy_no')))));
  }

  /** @param {import('./replies.js').Remedy} r */
  #button(r) {
    return el('button', { type: 'button', class: 'remedy', onclick: () => {
      this.store.endDrag();
      this.store.setAll(r.set.map(({ at, value }) => [at, value]), { label: r.say });
    } }, el('span', {}, r.say), ' ', el('small', {}, gains(r)));
  }
}

/**
 * What a remedy brings, in few words.
 * @param {{level_db: number, reach_hz: number}} r
 */
export function gains(r) {
  const said = [];
  if (Math.abs(r.level_db) >= 0.05) said.push(say('remedy_level', { sign: r.level_db > 0 ? '+' : '−', n: formatNumber(Math.abs(r.level_db), 1) }));
  if (r.reach_hz <= -0.5) said.push(say('remedy_reach', { sign: '', n: formatNumber(-r.reach_hz, 0) }));
  return said.length ? said.join(', ') : say('remedy_same');
}
