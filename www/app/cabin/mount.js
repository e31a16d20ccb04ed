// Puts the cabin on the page: its large drawing, how sure the answer is, and
// learning from a measurement.

import { el } from '../dom.js';
import { Confidence } from './band.js';
import { LearnDialog } from './learn.js';
import { LEARN_EVENT } from './sheet.js';
import { CabinStage } from './stage.js';
import { say } from './words.js';

/** @typedef {import('../views/model.js').Model} Model */
/** @typedef {import('../views/model.js').Part} Part */

/** Parts whose sheet goes with the large drawing. @type {Part[]} */
const CABIN_PARTS = ['cabin', 'seats'];

/**
 * @param {{page: import('../views/page.js').Page, store: import('../store.js').Store, engine: import('../engine.js').Engine}} parts
 * @returns {{update: (model: Model, calculated?: boolean) => void, takes: (text: string) => Promise<boolean>}} takes opens
 *   a text that was dropped or pasted, if it is a measurement
 */
export function mountCabin({ page, store, engine }) {
  const { car, curves, answer, sheet } = page;
  const stage = new CabinStage(store, engine, curves.cursor, () => showCar());
  const learn = new LearnDialog(store, engine);
  const confidence = new Confidence(engine, curves.charts.map(([chart]) => chart), answer.because.parentElement ?? answer.root);
  car.root.after(stage.root);
  car.stage.append(el('button', { type: 'button', class: 'quiet turn cab-link', onclick: () => showCabin('pressure') }, say('pressure_link')));
  document.addEventListener(LEARN_EVENT, () => learn.open());

  /** @param {import('./stage.js').Look} [look] */
  function showCabin(look) {
    page.board.classList.add('cabin-open');
    car.root.hidden = true;
    stage.root.hidden = false;
    stage.show(look ?? stage.look);
    if (look) stage.root.querySelector('input')?.focus({ preventScroll: true });
  }

  function showCar() {
    page.board.classList.remove('cabin-open');
    stage.root.hidden = true;
    car.root.hidden = false;
  }

  const before = sheet.onChange;
  sheet.onChange = (part) => {
    before(part);
    if (part && CABIN_PARTS.includes(part)) {
      showCabin(stage.root.hidden ? 'tape' : undefined);
      sheet.title.focus({ preventScroll: true });
      if (matchMedia('(max-width: 699px)').matches) stage.root.scrollIntoView({ block: 'start' });
    } else showCar();
  };

  return {
    update(model, calculated = true) {
      stage.update(model, calculated);
      confidence.update(model, calculated);
    },
    async takes(text) {
      const read = await engine.call('read_measurement', { text }).then(() => true, () => false);
      if (read) learn.open(text);
      return read;
    },
  };
}
