// The seats on the drawing: drag the ears to where they are, touch a seat to
// put somebody in it or take them out. From the side the seats of a row hide
// each other, so there the row moves as one.

import { el, setAttr, setText } from '../dom.js';
import { formatWithUnit } from '../format.js';
import { sayOf } from '../words.js';
import { Handle } from './handle.js';
import { lengthOf, sectionAt, stationsOf } from './shape.js';
import { say } from './words.js';

/** @typedef {import('../views/model.js').Model} Model */
/** @typedef {import('../job.js').Seat} Seat */
/** @typedef {{key: string, seats: number[], handle: Handle, from: Seat, note: HTMLElement}} Person */

const SNAP_MM = 10;
/** Seats nearer than this along the car are one row. */
const ROW_MM = 150;

export class People {
  /**
   * @param {import('../store.js').Store} store
   * @param {import('./projection.js').Projection} view
   * @param {(held: boolean) => void} onHold
   */
  constructor(store, view, onHold) {
    this.store = store;
    this.view = view;
    this.onHold = onHold;
    /** @type {Model|null} */
    this.model = null;
    /** @type {Map<string, Person>} */
    this.people = new Map();
    this.root = el('div', { class: 'cab-people' });
    view.over.append(this.root);
  }

  /** @param {Model} model @param {boolean} shown @param {((seat: Seat) => string)|null} [note] what stands beside each seat */
  update(model, shown, note = null) {
    this.model = model;
    this.root.hidden = !shown;
    if (!shown) return;
    const groups = this.#groups(model);
    const keys = new Set(groups.map((g) => g.key));
    for (const [key, p] of this.people) {
      if (keys.has(key)) continue;
      p.handle.root.remove();
      p.note.remove();
      this.people.delete(key);
    }
    for (const g of groups) this.#place(g.key, g.seats, note);
  }

  /** @param {Model} model */
  #groups(model) {
    const { seats } = model.job.car;
    if (this.view.way === 'above') return seats.map((s, i) => ({ key: s.id, seats: [i] }));
    /** @type {{key: string, seats: number[], x: number}[]} */
    const rows = [];
    seats.forEach((s, i) => {
      const row = rows.find((r) => Math.abs(r.x - s.x_mm) < ROW_MM);
      if (row) row.seats.push(i);
      else rows.push({ key: s.id, seats: [i], x: s.x_mm });
    });
    return rows;
  }

  /** @param {string} key @param {number[]} seats @param {((seat: Seat) => string)|null} note */
  #place(key, seats, note) {
    const { model, view } = this;
    const seat = model?.job.car.seats[seats[0] ?? 0];
    if (!model || !seat) return;
    const person = this.people.get(key) ?? this.#make(key, seat);
    person.seats = seats;
    const above = view.way === 'above';
    const at = view.at(seat.x_mm, above ? seat.y_mm : seat.z_mm);
    person.handle.place(at.x, at.y);
    const all = seats.map((i) => /** @type {Seat} */ (model.job.car.seats[i]));
    const names = all.map((s) => sayOf('seat', s.id)).join(', ');
    setAttr(person.handle.root, 'aria-pressed', above ? String(seat.occupied) : null);
    person.handle.tell(above ? say('seat_move', { seat: names, there: say(seat.occupied ? 'taken' : 'empty') }) : say('seat_row', { seats: names }),
      `${formatWithUnit(seat.x_mm, 'mm', model.system)}, ${formatWithUnit(seat.z_mm, 'mm', model.system)}`, above ? undefined : { value: seat.x_mm, min: 0, max: lengthOf(model.job.car.cabin) });
    person.handle.root.classList.toggle('assumed-value', model.isAssumed(`/car/seats/${seats[0]}/x_mm`));
    const text = note ? [...new Set(all.map(note))].join(' · ') : '';
    person.note.hidden = text === '';
    setText(person.note, text);
    person.note.style.setProperty('transform', `translate(${Math.round(at.x)}px, ${Math.round(at.y)}px) translate(-50%, 16px)`);
  }

  /** @param {string} key @param {Seat} seat @returns {Person} */
  #make(key, seat) {
    const above = this.view.way === 'above';
    /** @type {Person} */
    const person = {
      key, seats: [], from: seat, note: el('span', { class: 'cab-note' }),
      handle: new Handle({
        kind: 'seat', way: 'free',
        begin: () => { person.from = this.#seat(person); this.onHold(true); },
        drag: (dx, dy) => this.#move(person, person.from, dx / this.view.p.scale, -dy / this.view.p.scale),
        step: (dx, dy) => this.#move(person, this.#seat(person), dx * SNAP_MM, dy * SNAP_MM),
        end: () => { this.store.endDrag(); this.onHold(false); },
        ...(above ? { tap: () => this.#sit(person) } : {}),
      }),
    };
    this.people.set(key, person);
    this.root.append(person.handle.root, person.note);
    return person;
  }

  /** @param {Person} p @returns {Seat} */
  #seat(p) {
    return /** @type {Seat} */ (this.store.job.car.seats[p.seats[0] ?? 0]);
  }

  /** @param {Person} p @param {Seat} from @param {number} along mm @param {number} up mm */
  #move(p, from, along, up) {
    const { cabin, seats } = this.store.job.car;
    const stations = stationsOf(cabin);
    const snap = (/** @type {number} */ v, /** @type {number} */ lo, /** @type {number} */ hi) => Math.min(Math.floor(hi / SNAP_MM) * SNAP_MM, Math.max(Math.ceil(lo / SNAP_MM) * SNAP_MM, Math.round(v / SNAP_MM) * SNAP_MM));
    const x = snap(from.x_mm + along, 50, lengthOf(cabin) - 50);
    const s = sectionAt(stations, x);
    const now = this.#seat(p);
    /** @type {[string, number][]} */
    const changes = p.seats.flatMap((i) => {
      const at = `/car/seats/${i}`;
      const seat = /** @type {Seat} */ (seats[i]);
      return /** @type {[string, number][]} */ ([
        [`${at}/x_mm`, x],
        this.view.way === 'above' ? [`${at}/y_mm`, snap(from.y_mm + up, 60 - s.width_mm / 2, s.width_mm / 2 - 60)]
          : [`${at}/z_mm`, snap(from.z_mm + up + seat.z_mm - now.z_mm, s.floor_mm + 200, s.roof_mm - 40)],
      ]);
    });
    this.store.setAll(changes, { drag: true, label: sayOf('seat', now.id) });
  }

  /** @param {Person} p */
  #sit(p) {
    const seat = this.#seat(p);
    this.store.set(`/car/seats/${p.seats[0]}/occupied`, !seat.occupied, { label: sayOf('seat', seat.id) });
  }
}
