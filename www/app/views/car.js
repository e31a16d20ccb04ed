// The car, drawn to scale: the way round the job. Owns the stage, its labels,
// its dimension lines and the grip of the box.

import { el, setAttr, setText, svg } from '../dom.js';
import { say } from '../words.js';
import { outlineInput } from '../car-outline.js';
import { spread } from '../car-labels.js';
import { drawPlan, planBounds } from './car-plan.js';
import { drawSide, outlineOf } from './car-side.js';
import { BoxGrip } from './box-grip.js';
import { DimensionField } from './dimension.js';
import { Ink } from './ink.js';
import { amplifierInBrief } from './sheet-amplifier.js';
import { boxInBrief } from './sheet-box.js';
import { cabinInBrief } from './sheet-cabin.js';
import { doorsInBrief } from './sheet-doors.js';
import { seatsInBrief } from './sheet-seats.js';
import { subInBrief } from './sheet-sub.js';
import { PARTS, partOf } from './model.js';

/** @typedef {import('./model.js').Model} Model */
/** @typedef {import('./model.js').Part} Part */

/** What each label says, in full and where there is little room. @type {Record<Part, (m: Model, narrow: boolean) => string>} */
const BRIEF = {
  cabin: cabinInBrief, doors: doorsInBrief, seats: seatsInBrief,
  amplifier: (m, narrow) => amplifierInBrief(m, 0, narrow), sub: (m) => subInBrief(m, 0), box: (m, narrow) => boxInBrief(m, 0, narrow),
};

/** Width of a word that turns the drawing, px. */
const LINK_ROOM = 140;

export class CarView {
  /**
   * @param {import('../store.js').Store} store
   * @param {(part: Part) => void} open
   */
  constructor(store, open) {
    /** @type {Model|null} */
    this.model = null;
    /** @type {'side'|'plan'} */
    this.view = 'side';
    /** @type {Record<string, SVGGElement>} */
    const groups = {};
    for (const name of ['leaders', 'under', 'cabin', 'seats', 'amplifier', 'box', 'sub', 'over', 'doors', 'marks']) {
      groups[name] = svg('g', { class: `layer ${name}`, 'data-part': PARTS.includes(/** @type {Part} */ (name)) ? name : null });
    }
    this.groups = groups;
    const ink = (/** @type {string} */ name) => new Ink(/** @type {SVGGElement} */ (groups[name]));
    this.layers = { under: ink('under'), cabin: ink('cabin'), seats: ink('seats'), amplifier: ink('amplifier'), box: ink('box'), sub: ink('sub'), over: ink('over'), doors: ink('doors') };
    this.leaders = ink('leaders');
    this.marks = ink('marks');
    this.svg = svg('svg', { class: 'drawing', 'aria-hidden': 'true' }, ...['under', 'cabin', 'seats', 'amplifier', 'box', 'sub', 'over', 'doors', 'leaders', 'marks'].map((n) => /** @type {SVGGElement} */ (groups[n])));

    this.labels = new Map(PARTS.map((part) => {
      const value = el('b', {});
      const name = el('span', {});
      const button = el('button', { type: 'button', class: 'part-label', 'data-part': part, 'aria-expanded': 'false', 'aria-controls': 'part-sheet', onclick: () => open(part) }, name, value);
      for (const type of ['pointerenter', 'focus']) button.addEventListener(type, () => this.#heat(part));
      for (const type of ['pointerleave', 'blur']) button.addEventListener(type, () => this.#heat(null));
      return [part, { button, name, value }];
    }));
    this.length = new DimensionField(store);
    this.grip = new BoxGrip(store);
    this.turn = el('button', { type: 'button', class: 'quiet turn', onclick: () => this.#show(this.view === 'side' ? 'plan' : 'side') }, say('plan_view'));
    this.hint = el('p', { class: 'hint' }, say('hint_drag'));
    this.stage = el('div', { class: 'stage' }, this.svg, this.turn, this.hint, this.length.root, this.grip.root, ...[...this.labels.values()].map((l) => l.button));
    this.root = el('section', { class: 'car', 'aria-label': say('car_region') }, this.stage);

    // The box follows a drag of its body as it does one of its grip; a touch
    // that does not move opens its sheet.
    groups.box?.addEventListener('pointerdown', (e) => this.grip.grabBody(/** @type {PointerEvent} */ (e), this.stage.getBoundingClientRect()));
    this.svg.addEventListener('click', (e) => {
      if (this.grip.tookDrag()) return;
      const part = /** @type {Element} */ (e.target).closest('[data-part]')?.getAttribute('data-part');
      if (part) open(/** @type {Part} */ (part));
    });
    this.svg.addEventListener('pointerover', (e) => this.#heat(/** @type {Part|null} */ (/** @type {Element} */ (e.target).closest('[data-part]')?.getAttribute('data-part') ?? null)));
    this.svg.addEventListener('pointerleave', () => this.#heat(null));
    this.width = 0;
    new ResizeObserver(([entry]) => {
      this.width = entry ? Math.round(entry.contentRect.width) : 0;
      this.#draw();
    }).observe(this.stage);
    /** Called after each drawing with where the parts are, px in the stage. @type {(spots: Record<Part, {x: number, y: number}>) => void} */
    this.onDrawn = () => {};
  }

  /** @param {Model} model */
  update(model) {
    this.model = model;
    this.#draw();
  }

  /** Marks the part whose sheet is open. @param {Part|null} part */
  select(part) {
    for (const [name, label] of this.labels) setAttr(label.button, 'aria-expanded', name === part ? 'true' : 'false');
    for (const name of PARTS) this.groups[name]?.classList.toggle('selected', name === part);
  }

  /** Takes away the words for a first visit: the reader has found the way. */
  endHint() {
    this.hint.hidden = true;
  }

  /** @param {'side'|'plan'} view */
  #show(view) {
    this.view = view;
    setAttr(this.root, 'aria-label', say(view === 'side' ? 'car_region' : 'plan_region'));
    this.stage.classList.toggle('plan', view === 'plan');
    setText(this.turn, say(view === 'side' ? 'plan_view' : 'side_view'));
    for (const layer of Object.values(this.layers)) {
      layer.begin();
      layer.end();
    }
    this.#draw();
  }

  /** @param {Part|null} part */
  #heat(part) {
    for (const name of PARTS) {
      this.groups[name]?.classList.toggle('hot', name === part);
      this.labels.get(name)?.button.classList.toggle('hot', name === part);
    }
  }

  #draw() {
    const { model, width } = this;
    if (!model || width < 200) return;
    const narrow = width < 560;
    const room = { left: narrow ? 6 : 16, right: narrow ? 46 : 112, top: narrow ? 36 : 40, foot: narrow ? 60 : 66 };
    const outline = outlineOf(model);
    const plan = this.view === 'plan';
    const b = plan ? planBounds(model, outline) : outline.box;
    const most = Math.max(150, Math.min(window.innerHeight * 0.37, 400)) - (narrow ? 0 : 10);
    const scale = Math.min((width - room.left - room.right) / (b.right - b.left), (most - 20) / (b.high - b.low));
    const across = (b.right - b.left) * scale;
    const spare = Math.max(0, width - room.left - room.right - across);
    const across0 = room.left + spare / 2 - b.left * scale;
    // The two ways to look on stand beside the dimension where the car leaves
    // them room, else in a line of their own above it.
    const { lengthMM } = outlineInput(model.job.car);
    if (across0 < LINK_ROOM || across0 + lengthMM * scale > width - LINK_ROOM) room.top += 28;
    const p = { x0: across0, y0: room.top + b.high * scale, scale };
    const road = Math.round(p.y0 - b.low * scale);
    const height = road + room.foot;
    this.stage.style.setProperty('height', `${height}px`);
    setAttr(this.svg, 'viewBox', `0 0 ${width} ${height}`);

    const placed = plan ? drawPlan(this.layers, model, outline, p) : drawSide(this.layers, model, outline, p);
    this.marks.begin();
    if (!plan) this.marks.draw('road', 'line', { x1: 0, x2: width, y1: road + 0.5, y2: road + 0.5, class: 'road' });
    const lengthY = room.top - (narrow ? 14 : 18);
    this.#dimension('length', placed.car.left, placed.car.right, lengthY, placed.car.roof);
    this.marks.end();
    this.length.place(model, (placed.car.left + placed.car.right) / 2, lengthY);
    this.grip.place(model, placed.boxEdges, plan ? null : Math.min(width - (narrow ? 24 : 76), placed.car.tail + (narrow ? 20 : 30)), scale, !narrow);
    this.#placeLabels(placed.spots, width, road + (narrow ? 14 : 18), narrow);
    this.onDrawn(placed.spots);
  }

  /**
   * A dimension line with end ticks and the thin lines that lead to it.
   * @param {string} key
   * @param {number} x1
   * @param {number} x2
   * @param {number} y
   * @param {number} down where its lines come from
   */
  #dimension(key, x1, x2, y, down) {
    for (const [i, x] of [x1, x2].entries()) {
      this.marks.draw(`${key}-ext${i}`, 'line', { x1: x, x2: x, y1: y - 7, y2: Math.max(y + 10, down - 6), class: 'extension' });
      this.marks.draw(`${key}-tick${i}`, 'line', { x1: x - 4, x2: x + 4, y1: y + 4, y2: y - 4, class: 'tick' });
    }
    // The number stands in the gap.
    const mid = (x1 + x2) / 2;
    this.marks.draw(`${key}-a`, 'line', { x1, x2: mid - 46, y1: y, y2: y, class: 'dimension' });
    this.marks.draw(`${key}-b`, 'line', { x1: mid + 46, x2, y1: y, y2: y, class: 'dimension' });
  }

  /**
   * @param {Record<Part, {x: number, y: number}>} spots
   * @param {number} width
   * @param {number} y
   * @param {boolean} narrow
   */
  #placeLabels(spots, width, y, narrow) {
    const { model } = this;
    if (!model) return;
    const order = [...PARTS].sort((a, b) => spots[a].x - spots[b].x);
    const size = narrow ? width / order.length : Math.min(132, width / order.length);
    const centres = spread(order.map((part) => spots[part].x), size, width);
    this.leaders.begin();
    order.forEach((part, i) => {
      const label = /** @type {{button: HTMLButtonElement, name: HTMLElement, value: HTMLElement}} */ (this.labels.get(part));
      const x = Math.round(centres[i] ?? 0);
      const spot = spots[part];
      const title = say(/** @type {any} */ (`part_${part}`));
      const brief = BRIEF[part](model, narrow);
      setText(label.name, title);
      setText(label.value, brief);
      const found = model.findings.filter((f) => partOf(f.at) === part && f.level !== 'note');
      label.button.classList.toggle('troubled', found.length > 0);
      setAttr(label.button, 'aria-label', [say('part_open', { part: title, value: brief }), ...found.map((f) => f.say)].join('. '));
      label.button.style.setProperty('transform', `translate(${Math.round(x - size / 2)}px, ${y}px)`);
      label.button.style.setProperty('width', `${Math.floor(size)}px`);
      // Down from the part, then across under the road to its label.
      const bend = y - (narrow ? 8 : 10);
      this.leaders.path(`${part}`, `M${spot.x} ${spot.y}L${x} ${bend}L${x} ${y + 2}`, `leader ${part}`);
      this.leaders.draw(`${part}-dot`, 'circle', { cx: spot.x, cy: spot.y, r: 2.6, class: `leader-dot ${part}` });
    });
    this.leaders.end();
  }
}
