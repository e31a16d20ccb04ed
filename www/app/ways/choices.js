// What came of the questions: choices that stream in, why, and why not others.

import { el, setAttr, setText } from '../dom.js';
import { formatNumber } from '../format.js';
import { fragmentOf } from '../router.js';
import { EngineError } from '../protocol.js';
import { STEP_OF, inOrder } from './answers.js';
import { ChoiceRow, reachWords } from './choice-row.js';
import { MixControl } from './mix.js';
import { readWhich } from './read-which.js';
import { say } from './words.js';

/** @typedef {import('./replies.js').WhichReply} WhichReply */
/** @typedef {import('./replies.js').WhichRequest} WhichRequest */
/** @typedef {import('./replies.js').Choice} Choice */
/** @typedef {import('../units.js').System} System */

export class Choices {
  /**
   * @param {import('../engine.js').Engine} engine
   * @param {(choice: Choice) => void} take hands a choice over to the full job
   */
  constructor(engine, take) {
    this.engine = engine;
    this.take = take;
    /** @type {WhichReply|null} */
    this.reply = null;
    /** The request that the reply, or the work going on, answers. */
    this.key = '';
    /** @type {AbortController|null} */
    this.work = null;
    /** @type {'working'|'done'|'stopped'|'failed'} */
    this.state = 'done';
    this.why = '';
    /** @type {Map<string, ChoiceRow>} */
    this.rows = new Map();
    /** @type {System} */
    this.system = 'metric';

    this.title = el('h1', { tabindex: -1 });
    this.lead = el('p', { class: 'lead' });
    this.bar = el('progress', { max: 1, value: 0, 'aria-label': say('working') });
    this.stop = el('button', { type: 'button', onclick: () => this.#cancel() }, say('stop'));
    this.again = el('button', { type: 'button', onclick: () => this.#start() }, say('again'));
    this.progress = el('div', { class: 'which-work' }, this.bar, this.stop);
    this.assumed = fold();
    this.assumed.list.className = 'assumed-list';
    this.mix = new MixControl(() => this.#order());
    this.list = el('div', { class: 'choice-list' });
    this.others = fold();
    this.out = fold();
    this.note = el('p', { class: 'aside' }, say('band_note'));
    this.caution = el('p', { class: 'caution' }, say('hearing'));
    this.live = el('p', { class: 'visually-hidden', 'aria-live': 'polite' });
    this.root = el('div', { class: 'choices' }, el('div', { class: 'choices-top' }, el('div', { class: 'choices-says' }, this.title, this.lead, this.progress, this.again, this.assumed.root), this.mix.root),
      this.list, this.note, this.others.root, this.out.root, this.caution, this.live);
  }

  /**
   * Shows the choices for these answers, and works them out if that was not
   * done.
   * @param {WhichRequest} request
   * @param {System} system
   */
  ask(request, system) {
    this.system = system;
    const key = JSON.stringify(request);
    if (key === this.key && this.state !== 'failed') {
      this.#show();
      return;
    }
    this.key = key;
    this.#start();
  }

  /** Gives up the work that goes on: nobody looks. */
  leave() {
    if (this.state !== 'working') return;
    this.work?.abort();
    this.key = '';
    this.state = 'done';
  }

  #cancel() {
    this.state = 'stopped';
    this.work?.abort();
    this.#show();
    this.title.focus();
  }

  async #start() {
    this.work?.abort();
    const work = new AbortController();
    this.work = work;
    this.state = 'working';
    this.reply = null;
    this.rows.clear();
    this.bar.removeAttribute('value');
    this.#show();
    try {
      const { reply } = await this.engine.call('which', JSON.parse(this.key), {
        background: true, signal: work.signal,
        onProgress: ({ done, of, soFar }) => {
          if (work.signal.aborted) return;
          if (of > 0) {
            this.bar.max = of;
            this.bar.value = done;
            setText(this.lead, say('working_n', { done: formatNumber(done, 0), of: formatNumber(of, 0) }));
          }
          if (soFar) {
            this.reply = readWhich(soFar);
            this.#show();
          }
        },
      });
      if (work.signal.aborted) return;
      this.reply = readWhich(reply);
      this.state = 'done';
    } catch (error) {
      if (work.signal.aborted || (error instanceof EngineError && (error.kind === 'cancelled' || error.kind === 'superseded'))) return;
      this.state = 'failed';
      this.why = error instanceof Error ? error.message : String(error);
    }
    this.#show();
    setText(this.live, `${this.title.textContent ?? ''}. ${this.lead.textContent ?? ''}`);
  }

  #show() {
    const { reply, state } = this;
    const choices = reply?.choices ?? [];
    const wrong = reply?.findings?.find((f) => f.level === 'error');
    const failed = state === 'failed' || wrong !== undefined;
    const busy = state === 'working';
    setText(this.title, this.#headline(choices.length, failed));
    if (!busy) setText(this.lead, this.#leadWords(choices.length, wrong?.say));
    else if (!this.lead.textContent || !choices.length) setText(this.lead, say('working'));
    this.progress.hidden = !busy;
    this.again.hidden = busy || state === 'done' && !failed;
    this.root.classList.toggle('partial', busy);
    this.root.setAttribute('aria-busy', String(busy));

    const assumed = reply?.assumed ?? [];
    setText(this.assumed.summary, say('assumed_n', { n: assumed.length }));
    this.assumed.root.hidden = assumed.length === 0;
    this.assumed.list.replaceChildren(...assumed.map((a) => {
      const step = STEP_OF[a.key];
      return el('li', {}, el('span', { class: 'assumed', 'aria-hidden': 'true' }), ` ${a.say} `, step ? el('a', { href: fragmentOf('which', step) }, say('change'), el('span', { class: 'visually-hidden' }, `: ${a.say}`)) : null);
    }));
    for (const c of choices) {
      let row = this.rows.get(c.id);
      if (!row) {
        row = new ChoiceRow(c, (choice) => this.take(choice));
        this.rows.set(c.id, row);
      }
      row.update(c, reply?.asked, this.system);
    }
    this.mix.root.hidden = choices.length < 2;
    this.note.hidden = !choices.some((c) => c.band);
    this.caution.hidden = choices.length === 0;
    this.#order();
    const out = reply?.out ?? [];
    setText(this.out.summary, say('out', { n: out.length }));
    this.out.root.hidden = out.length === 0;
    this.out.list.replaceChildren(...out.map((o) => el('li', {}, o.title && !o.say.startsWith(o.title) ? `${o.title}: ${o.say}` : o.say)));
  }

  /** @param {number} n @param {boolean} failed */
  #headline(n, failed) {
    if (failed) return say('way_which');
    if (this.state === 'working') return n ? say('so_far') : say('working');
    if (n === 0) return this.state === 'stopped' ? say('stopped_none') : say('found_none');
    const words = /** @type {const} */ (['number_1', 'number_2', 'number_3', 'number_4', 'number_5'])[n - 1];
    return n === 1 ? say('found_one') : say('found_many', { n: words ? say(words) : n });
  }

  /** @param {number} n @param {string} [wrong] */
  #leadWords(n, wrong) {
    if (this.state === 'failed') return say('trouble', { why: this.why });
    if (wrong) return wrong;
    if (this.state === 'stopped') return n ? say('stopped') : '';
    if (n === 0 || !this.reply) return say('none_lead');
    const { asked, space_l, boot_l } = this.reply;
    const space = space_l && boot_l ? say('may_go', { taken: formatNumber(space_l, 0), all: formatNumber(boot_l, 0) }) : '';
    return `${say('asked', { what: asked.say })} ${space}`;
  }

  /** Puts the lists in the order the reader's mix wants, keeping the elements and the focus. */
  #order() {
    const mix = this.mix.touched ? this.mix.mix : null;
    const choices = inOrder(this.reply?.choices ?? [], mix);
    const wanted = choices.map((c) => /** @type {ChoiceRow} */ (this.rows.get(c.id)).root);
    const focused = document.activeElement;
    if (wanted.length !== this.list.childElementCount || wanted.some((node, i) => this.list.children[i] !== node)) {
      this.list.replaceChildren(...wanted);
      if (focused instanceof HTMLElement && this.list.contains(focused)) focused.focus({ preventScroll: true });
    }
    const others = inOrder(this.reply?.others ?? [], mix);
    setText(this.others.summary, say('others', { n: others.length }));
    this.others.root.hidden = others.length === 0;
    this.others.list.replaceChildren(...others.map((c) => el('li', { class: 'other' },
      el('span', {}, el('b', {}, c.title), ` ${reachWords(c.reach_hz)}, ${formatNumber(c.level_db, 0)}\u00a0dB${c.boot_left_l === undefined ? '' : `; ${say('left').toLowerCase()} ${say('litres', { n: formatNumber(c.boot_left_l, 0) })}`}`),
      el('button', { type: 'button', onclick: () => this.take(c), 'aria-label': say('take_named', { title: c.title }) }, say('take')))));
    setAttr(this.root, 'data-order', choices.map((c) => c.id).join(' '));
  }
}

function fold() {
  const summary = el('summary');
  const list = el('ul');
  return { summary, list, root: el('details', { class: 'more', hidden: true }, summary, list) };
}
