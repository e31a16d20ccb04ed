// Long work: a button that starts it, how far it has come, a button that stops
// it, and what went wrong.

import { el, setAttr, setText } from '../dom.js';
import { EngineError } from '../protocol.js';
import { say } from './words.js';

export class Work {
  /**
   * @param {import('../engine.js').Engine} engine
   * @param {string} words on the button
   * @param {() => void} start
   */
  constructor(engine, words, start) {
    this.engine = engine;
    /** @type {AbortController|null} */
    this.going = null;
    this.go = el('button', { type: 'button', class: 'go', onclick: start }, words);
    this.bar = el('progress', { max: 1, 'aria-label': say('working') });
    this.stop = el('button', { type: 'button', onclick: () => this.cancel(true) }, say('stop'));
    this.line = el('div', { class: 'work-line', hidden: true }, this.bar, this.stop);
    this.said = el('p', { class: 'work-said', role: 'status' });
    this.root = el('div', { class: 'work' }, this.go, this.line, this.said);
  }

  /** @param {string} words */
  say(words) {
    setText(this.said, words);
  }

  /** @param {boolean} [aloud] */
  cancel(aloud = false) {
    if (!this.going) return;
    this.going.abort();
    this.#end();
    if (aloud) {
      this.say(say('stopped'));
      this.go.focus();
    }
  }

  #end() {
    this.going = null;
    this.line.hidden = true;
    this.go.disabled = false;
  }

  /**
   * Runs one long call; a newer one takes the place of an older. What went
   * wrong is said here.
   * @param {string} name
   * @param {object} request
   * @param {(soFar: any) => void} [onSoFar]
   * @returns {Promise<import('../protocol.js').Answer|null>} null where there is no answer
   */
  async run(name, request, onSoFar) {
    this.going?.abort();
    const going = new AbortController();
    this.going = going;
    this.bar.removeAttribute('value');
    this.line.hidden = false;
    this.go.disabled = true;
    this.say(say('working'));
    try {
      const answer = await this.engine.call(name, request, {
        background: true, signal: going.signal,
        onProgress: (p) => {
          if (this.going !== going) return;
          setAttr(this.bar, 'max', p.of);
          this.bar.value = p.done;
          if (p.say) this.say(p.say);
          if (p.soFar) onSoFar?.(p.soFar);
        },
      });
      if (this.going !== going) return null;
      this.#end();
      const wrong = /** @type {{level: string, say: string}[]} */ (answer.reply.findings ?? []).find((f) => f.level === 'error');
      this.say(wrong ? wrong.say : '');
      return wrong ? null : answer;
    } catch (error) {
      if (this.going !== going) return null;
      this.#end();
      if (error instanceof EngineError && (error.kind === 'cancelled' || error.kind === 'superseded')) return null;
      this.say(say('trouble', { why: error instanceof Error ? error.message : String(error) }));
      return null;
    }
  }
}
