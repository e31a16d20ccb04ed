// Puts the views on the page and decides which sheet is open.

import { el } from '../dom.js';
import { say } from '../words.js';
import { reads } from '../workshop/box-starts.js';
import { AnswerView } from './answer.js';
import { CarView } from './car.js';
import { CurvesView } from './curves.js';
import { numberField, onlyWhen } from './fields.js';
import { HeaderView } from './header.js';
import { SheetView } from './sheet.js';
import { netVolumeChanges } from './sheet-box.js';
import { Ties } from './ties.js';

/** @typedef {import('./model.js').Model} Model */
/** @typedef {import('./model.js').Part} Part */

/** From here on there is room for a sheet beside the drawing. */
const WIDE = '(min-width: 1100px)';

export class Page {
  /**
   * @param {import('../store.js').Store} store
   * @param {import('./prefs.js').Prefs} prefs
   * @param {import('./header.js').HeaderActions} actions
   * @param {HTMLElement} bar sentences about files and storage
   */
  constructor(store, prefs, actions, bar) {
    this.header = new HeaderView(store, prefs, actions);
    this.answer = new AnswerView();
    this.car = new CarView(store, (part) => this.sheet.open(part));
    this.curves = new CurvesView((seat) => this.onSeat(seat));
    this.sheet = new SheetView(store, (part) => this.#opened(part));
    this.quick = onlyWhen(numberField(store, {
      pointer: '/subs/0/box/net_l', label: say('net_volume'), quantity: 'litres', slide: [5, 150], log: true,
      also: (value, m) => netVolumeChanges(m, 0, value).slice(1),
    }), (m) => reads(m.job.subs[0]?.box.type ?? '', 'net_l'));
    this.quick.root.classList.add('quick');
    this.quick.root.classList.remove('field');
    /** @type {() => void} */
    this.onSub = () => {};
    this.sheet.onSub = () => this.onSub();
    this.demo = el('p', { class: 'demo-note' }, say('demo_note'));
    this.board = el('div', { class: 'board' }, this.answer.root, this.car.root);
    this.ties = new Ties(this.board);
    /** @type {Record<Part, {x: number, y: number}>|null} */
    this.spots = null;
    this.said = '';
    this.car.onDrawn = (spots) => {
      this.spots = spots;
      this.ties.draw(spots);
    };
    // Fires after the stage's own observer has drawn at the new width.
    new ResizeObserver(() => this.#tie()).observe(this.board);
    this.bar = bar;
    const main = /** @type {HTMLElement} */ (document.querySelector('main'));
    main.replaceChildren(this.board, this.quick.root, this.curves.root, this.sheet.root);
    main.before(this.header.root, bar);
    main.after(el('footer', { class: 'foot' }, this.demo));
    /** @type {(seat: string) => void} */
    this.onSeat = () => {};
    this.first = true;
    store.subscribe(() => this.car.endHint());
  }

  /** @param {import('./model.js').BodyPreset[]} bodies @param {{key: string, name: string}[]} finishes */
  know(bodies, finishes) {
    this.sheet.know(bodies, finishes);
  }

  /**
   * @param {Model} model
   * @param {boolean} [calculated] the engine has answered; else only the job is new
   */
  update(model, calculated = true) {
    model.sub = Math.max(0, Math.min(this.sheet.sub, model.job.subs.length - 1));
    this.header.update(model);
    if (calculated) {
      this.answer.update(model);
      this.curves.update(model);
    }
    this.quick.update(model);
    this.sheet.update(model);
    const said = `${model.reply?.answer?.headline}${model.reply?.answer?.because}`;
    if (said !== this.said) {
      this.said = said;
      // The words are laid out with the frame, not once before it as well.
      requestAnimationFrame(() => this.#tie());
    }
    this.car.update(model);
    this.demo.hidden = !model.job.demo;
    document.documentElement.classList.add('ready');
    if (this.first && model.reply) {
      this.first = false;
      if (matchMedia(WIDE).matches) this.sheet.open('box', false);
    }
  }

  #tie() {
    this.ties.measure(this.answer.ties, this.car.stage);
    if (this.spots) this.ties.draw(this.spots);
  }

  /** @param {string} why */
  fail(why) {
    this.answer.fail(why);
  }

  /** @param {() => void} apply */
  offerUpdate(apply) {
    this.bar.replaceChildren(say('update_ready'), ' ', el('button', { type: 'button', onclick: apply }, say('update_now')));
  }

  /** @param {Part|null} part */
  #opened(part) {
    document.documentElement.classList.toggle('sheet-open', part !== null);
    this.car.select(part);
    // On a narrow page the sheet covers the lower half: the drawing and the
    // first curve move to the upper one.
    if (part && matchMedia('(max-width: 699px)').matches) {
      this.car.root.scrollIntoView({ block: 'start', behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth' });
    }
  }
}
