// A box cut open, to scale: its walls, cones, ports, passive radiators and
// lines as shapes in mm, for every type. Pure: the same input gives the same
// shapes, and drawing them is another module's work.

import { driverSection, driverSize } from '../car-box.js';
import { layPort, portBore, sectionSize } from './box-geometry.js';
import { drawLine } from './section-line.js';

/**
 * @typedef {import('./box-geometry.js').SectionInput} SectionInput
 * @typedef {import('./box-geometry.js').PortLay} PortLay
 * @typedef {[along: number, across: number]} Point
 *
 * @typedef {object} Shape
 * @property {'wall'|'panel'|'cone'|'motor'|'radiator'|'weight'|'port'|'port_air'|'wrong'|'stuffing'|'mat'|'ground'|'centre'} kind
 * @property {Point[]} points
 * @property {boolean} [closed]
 *
 * @typedef {object} Note a word at a place; where it names a length, the line it measures
 * @property {'rear'|'front'|'port'|'front_port'|'added'|'gap'|'boot'|'count'|'across'} key
 * @property {Point} at
 * @property {number} [value] mm, or how many
 * @property {[Point, Point]} [line]
 *
 * @typedef {object} Section
 * @property {Shape[]} shapes
 * @property {Note[]} notes
 * @property {{port?: PortLay, front?: PortLay}} ports
 * @property {{along: number, across: number, third: number}} size outside, mm
 */

/** Free space between things on one face, mm. Common practice, no source. */
const CLEAR = 30;

/**
 * @param {SectionInput} input
 * @returns {Section}
 */
export function boxSection(input) {
  const size = sectionSize(input);
  const draw = new Cutter(input, size);
  switch (input.box.type) {
    case 'infinite_baffle': draw.baffle(); break;
    case 'line': drawLine(draw); break;
    case 'bandpass4': case 'bandpass6_series': case 'bandpass6_parallel': draw.bandpass(); break;
    default: draw.single();
  }
  draw.ground();
  return { shapes: draw.shapes, notes: draw.notes, ports: draw.ports, size: draw.outside };
}

/** @param {number} a0 @param {number} c0 @param {number} a1 @param {number} c1 @returns {Point[]} */
export const rect = (a0, c0, a1, c1) => [[a0, c0], [a1, c0], [a1, c1], [a0, c1]];

/** Collects the shapes of one box. */
export class Cutter {
  /** @param {SectionInput} input @param {{along: number, across: number, third: number}} size */
  constructor(input, size) {
    this.input = input;
    this.size = size;
    this.t = input.box.panel_mm;
    this.driver = driverSize(input.driver);
    /** Cones on the face; an isobaric pair shows one. */
    this.cones = Math.max(1, Math.round(input.box.isobaric ? input.drivers / 2 : input.drivers));
    /** @type {Shape[]} */
    this.shapes = [];
    /** @type {Note[]} */
    this.notes = [];
    /** @type {{port?: PortLay, front?: PortLay}} */
    this.ports = {};
    /** Along and across change places while this is true. */
    this.swapped = false;
  }

  /** Outside size as it was drawn, mm. */
  get outside() {
    const { along, across, third } = this.size;
    return this.swapped ? { along: across, across: along, third } : { along, across, third };
  }

  /** Boxes that are divided are laid out along their longer side. */
  turnLong() {
    const { along, across, third } = this.size;
    if (across <= along) return;
    this.swapped = true;
    this.size = { along: across, across: along, third };
  }

  /** @param {Point} p @returns {Point} */
  place([a, c]) {
    return this.swapped ? [c, a] : [a, c];
  }

  /** @param {Shape['kind']} kind @param {Point[]} points @param {boolean} [closed] */
  add(kind, points, closed = false) {
    this.shapes.push({ kind, points: points.map((p) => this.place(p)), closed });
  }

  /** @param {Note['key']} key @param {Point} at @param {number} [value] @param {[Point, Point]} [line] */
  note(key, at, value, line) {
    this.notes.push({ key, at: this.place(at), value, line: line && [this.place(line[0]), this.place(line[1])] });
  }

  /** The four panels. */
  shell() {
    const { along, across } = this.size;
    const { t } = this;
    this.add('wall', rect(0, 0, along, across), true);
    this.add('wall', rect(t, t, along - t, across - t), true);
  }

  /**
   * Cones in a row on a face at `along`, firing outward (1) or inward (-1).
   * @param {number} along
   * @param {number} from across, mm
   * @param {number} to
   * @param {1|-1} [way]
   */
  row(along, from, to, way = 1) {
    const { outside, cone, depth } = this.driver;
    const fit = Math.max(1, Math.min(this.cones, Math.floor((to - from) / (outside + CLEAR / 3))));
    const step = (to - from) / fit;
    for (let i = 0; i < fit; i += 1) {
      const middle = from + step * (i + 0.5);
      this.speaker(along, middle, way);
      if (this.input.box.isobaric) this.pair(along, middle, way, cone, depth);
    }
    if (fit < this.cones) this.note('count', [along - way * this.driver.depth * 0.5, (from + to) / 2 - outside / 2 - 14], this.cones);
  }

  /** @param {number} along @param {number} across @param {1|-1} way */
  speaker(along, across, way) {
    const parts = driverSection(this.driver);
    const to = (/** @type {[number, number]} */ [u, v]) => /** @type {Point} */ ([along + way * u, across + v]);
    this.add('motor', parts.basket.map(to));
    this.add('cone', parts.cone.map(to));
    this.add('cone', parts.flange.map(to));
  }

  /** The second cone of an isobaric pair, behind the first in a short tunnel. @param {number} along @param {number} across @param {1|-1} way @param {number} cone @param {number} depth */
  pair(along, across, way, cone, depth) {
    const back = along - way * (depth + CLEAR);
    this.add('panel', [[along, across - cone / 2 - 8], [back, across - cone / 2 - 8]]);
    this.add('panel', [[along, across + cone / 2 + 8], [back, across + cone / 2 + 8]]);
    this.speaker(back, across, way);
  }

  /** Sealed, vented, passive radiator, aperiodic: one chamber, all on one face. */
  single() {
    const { along, across } = this.size;
    const { t, input } = this;
    const { box } = input;
    this.shell();
    this.lining(t, along - t);
    this.note('rear', [along / 2, across - t - Math.min(60, (across - 2 * t) * 0.13)]);
    let from = t;
    if (box.type === 'vented' && box.port) {
      const bore = portBore(box.port);
      from += this.portOn('port', box.port, this.length(0), along, t, along - t, across - 2 * t) + (box.port.shape === 'slot' ? 0 : CLEAR);
      from = Math.min(from, t + Math.max(bore + CLEAR, across - 2 * t - this.driver.outside));
    }
    if (box.type === 'passive_radiator' && box.passive) from = this.radiators(box.passive, along, t);
    if (box.type === 'aperiodic' && box.vent) {
      const side = Math.sqrt(box.vent.area_cm2 * 100);
      const at = t + CLEAR + side / 2;
      this.add('mat', rect(along - t * 1.2, at - side / 2, along, at + side / 2), true);
      from = at + side / 2 + CLEAR / 2;
    }
    this.row(along, from, across - t);
  }

  /** Mm of a port's length as the engine has it, or as it is stated. @param {number} n @param {'port'|'front'} [which] */
  length(n, which = 'port') {
    return this.input.portLengths?.[n] ?? this.input.box[which]?.length_mm ?? 0;
  }

  /**
   * Ports through the face at `mouth`, the first along the lower wall.
   * @param {'port'|'front'} name
   * @param {import('../job.js').Port} port
   * @param {number} length
   * @param {number} mouth along
   * @param {number} back along, the far wall of the chamber inside
   * @param {number} face along, the wall with the mouth inside
   * @param {number} side clear across
   * @returns {number} how much of the face they take, mm
   */
  portOn(name, port, length, mouth, back, face, side) {
    const { t } = this;
    const bore = portBore(port);
    const slot = port.shape === 'slot';
    const reach = Math.abs(mouth - back);
    const way = mouth > back ? -1 : 1;
    const count = slot ? 1 : Math.max(1, Math.min(port.count, Math.floor(side / (2 * bore + CLEAR)) || 1));
    let used = 0;
    for (let i = 0; i < count; i += 1) {
      const across = t + (slot ? bore / 2 : CLEAR / 2 + bore / 2 + i * (bore + CLEAR));
      const lay = layPort({ length, bore, mouth: [mouth, across], inward: [way, 0], reach, turn: [0, 1], side: side - (across - t - bore / 2) });
      this.ports[name] ??= lay;
      this.duct(lay);
      used = across + bore / 2 - t;
      if (i === 0) {
        const [first, second] = lay.path;
        if (first && second) this.note(name === 'front' ? 'front_port' : 'port', [(first[0] + second[0]) / 2, first[1]], length);
      }
    }
    if (port.count > count) this.note('count', [face, t + used / 2], port.count);
    return used;
  }

  /** Walls and air of a duct along its centre line. @param {PortLay} lay */
  duct(lay) {
    const half = lay.bore / 2;
    const wrong = lay.fit === 'too_long' || lay.fit === 'too_wide';
    const left = offset(lay.path, half);
    const right = offset(lay.path, -half);
    this.add('port_air', [...left, ...right.slice().reverse()], true);
    this.add(wrong ? 'wrong' : 'port', left);
    this.add(wrong ? 'wrong' : 'port', right);
    this.add('centre', lay.path);
  }

  /**
   * Passive radiators beside the cone, or on the back where they do not fit.
   * @param {import('../job.js').Passive} passive
   * @param {number} along
   * @param {number} t
   * @returns {number} where the cones may begin, across
   */
  radiators(passive, along, t) {
    const { across } = this.size;
    const cone = 2 * Math.sqrt(passive.sd_cm2 * 100 / Math.PI);
    const outside = cone * 1.22;
    const room = across - 2 * t - this.cones * (this.driver.outside + CLEAR / 3);
    const beside = Math.max(0, Math.min(passive.count, Math.floor(room / (outside + CLEAR / 3))));
    const rest = passive.count - beside;
    for (let i = 0; i < beside; i += 1) this.radiator(along, t + CLEAR / 2 + outside / 2 + i * (outside + CLEAR / 3), cone, outside, 1, passive.added_g > 0);
    const step = (across - 2 * t) / Math.max(1, rest);
    const shown = Math.max(1, Math.min(rest, Math.floor((across - 2 * t) / outside) || 1));
    for (let i = 0; i < Math.min(rest, shown); i += 1) this.radiator(0, t + step * (i + 0.5), cone, outside, -1, passive.added_g > 0);
    if (passive.added_g > 0) {
      const at = beside ? /** @type {Point} */ ([along - cone * 0.3, t + CLEAR / 2 + outside / 2]) : /** @type {Point} */ ([cone * 0.3, t + step / 2]);
      this.notes.push({ key: 'added', at, value: passive.added_g });
    }
    if (rest > shown) this.note('count', [cone * 0.3, t + step / 2 + 46], passive.count);
    return beside ? t + CLEAR / 2 + beside * (outside + CLEAR / 3) : t;
  }

  /** @param {number} along @param {number} across @param {number} cone @param {number} outside @param {1|-1} way @param {boolean} loaded */
  radiator(along, across, cone, outside, way, loaded) {
    const c = cone / 2;
    const deep = cone * 0.16;
    this.add('radiator', [[along, across - outside / 2], [along, across - c], [along - way * deep, across - c * 0.35], [along - way * deep, across + c * 0.35], [along, across + c], [along, across + outside / 2]]);
    if (loaded) this.add('weight', rect(along - way * deep, across - c * 0.18, along - way * (deep + cone * 0.08), across + c * 0.18), true);
  }

  /**
   * Two chambers with the cone in the wall between, one after the other along
   * the longer side. The mouth stays on the face that the box fires to.
   */
  bandpass() {
    this.turnLong();
    const { along, across } = this.size;
    const { t, input, swapped } = this;
    const { box } = input;
    this.shell();
    const inside = along - 3 * t;
    const rear = inside * box.net_l / Math.max(1e-6, box.net_l + box.front_l);
    const wall = t + rear;
    const clear = across - 2 * t;
    this.add('panel', rect(wall, t, wall + t, across - t), true);
    this.lining(t, wall);
    this.note('rear', [t + Math.min(60, rear * 0.2), t + clear * 0.3]);
    this.note('front', [wall + t + (inside - rear) * 0.3, across - t - clear * 0.2]);
    let used = 0;
    if (box.front) {
      used = swapped ? 0 : this.portOn('front', box.front, this.length(0, 'front'), along, wall + t, along - t, clear);
      if (swapped) this.sidePort('front', box.front, this.length(0, 'front'), along - t, -1, inside - rear);
    }
    if (box.type === 'bandpass6_series' && box.port) used = Math.max(used, this.portOn('port', box.port, this.length(1), wall + t, t, wall, clear));
    if (box.type === 'bandpass6_parallel' && box.port) this.sidePort('port', box.port, this.length(1), t, 1, rear);
    this.row(wall + t, Math.max(t, Math.min(t + used + CLEAR / 3, across - t - this.driver.outside)), across - t);
  }

  /**
   * A port through the side of a chamber at its far end.
   * @param {'port'|'front'} name
   * @param {import('../job.js').Port} port
   * @param {number} length
   * @param {number} end along, the end wall of the chamber inside
   * @param {1|-1} way from that wall into the chamber
   * @param {number} deep of the chamber, mm
   */
  sidePort(name, port, length, end, way, deep) {
    const { t } = this;
    const { across } = this.size;
    const bore = portBore(port);
    const slot = port.shape === 'slot';
    const middle = end + way * (bore / 2 + (slot ? 0 : CLEAR / 2));
    // Turned the long way, the face that fires is the far side of the section.
    const [mouth, inward] = this.swapped ? [across, -1] : [0, 1];
    const lay = layPort({ length, bore, mouth: [middle, mouth], inward: [0, inward], reach: across - t, turn: [way, 0], side: deep - (slot ? 0 : CLEAR / 2) });
    this.ports[name] = lay;
    this.duct(lay);
    this.note(name === 'front' ? 'front_port' : 'port', [middle, mouth + inward * Math.min(length, across) / 2], length);
    if (port.count > 1) this.note('count', [middle, mouth - inward * 14], port.count);
  }

  /** A cone in a panel, the boot behind. */
  baffle() {
    const { outside } = this.driver;
    const tall = Math.max(this.cones * (outside + CLEAR) + CLEAR, outside * 1.5);
    const { t } = this;
    this.size = { along: t, across: tall, third: tall };
    this.add('panel', rect(-t, 0, 0, tall), true);
    this.row(0, CLEAR / 2, tall - CLEAR / 2);
    this.note('boot', [-this.driver.depth - 70, tall * 0.12]);
    this.note('across', [90, tall / 2], outside, [[70, tall / 2 - outside / 2], [70, tall / 2 + outside / 2]]);
  }

  /** A wavy line, the sign for fibre. @param {number} from @param {number} to @param {number} across @param {number} width */
  fibre(from, to, across, width) {
    const step = Math.max(14, (to - from) / 40);
    /** @type {Point[]} */
    const wave = [];
    for (let a = from + 8, n = 0; a < to - 4; a += step, n += 1) wave.push([a, across + (n % 2 ? 1 : -1) * width * 0.28]);
    if (wave.length > 1) this.add('stuffing', wave);
  }

  /** Lining of the rear chamber: along the walls, or throughout where there is much. @param {number} from along @param {number} to */
  lining(from, to) {
    const { lining } = this.input.box;
    if (!(lining > 0)) return;
    const { t } = this;
    const { across } = this.size;
    const thick = Math.min(40, (to - from) * 0.2, across * 0.1);
    for (const middle of [t + thick / 2, across - t - thick / 2]) this.fibre(from, to, middle, thick);
    if (lining > 0.5) for (let k = 1; k < 4; k += 1) this.fibre(from, to, t + (across - 2 * t) * k / 4, thick);
  }

  /** The surface that the cone fires at, where there is a gap. */
  ground() {
    const gap = this.input.place.gap_mm ?? 0;
    if (!(gap > 0)) return;
    const { along, across } = this.outside;
    this.swapped = false;
    const face = this.input.box.type === 'infinite_baffle' ? 0 : along;
    this.add('ground', [[face + gap, -CLEAR], [face + gap, across + CLEAR]]);
    for (const c of [this.t * 1.5, across - this.t * 1.5]) this.add('panel', rect(face, c - this.t, face + gap, c + this.t), true);
    this.note('gap', [face + gap / 2, across + CLEAR], gap, [[face, across + CLEAR], [face + gap, across + CLEAR]]);
  }
}

/**
 * A path moved to its side; at a right-angled bend both runs meet.
 * @param {Point[]} path
 * @param {number} by mm, to the left of the way it runs
 * @returns {Point[]}
 */
export function offset(path, by) {
  return path.map((p, i) => {
    const before = path[i - 1];
    const next = path[i + 1];
    const a = before ? normal(before, p) : null;
    const b = next ? normal(p, next) : null;
    const n = a && b ? /** @type {Point} */ ([a[0] + b[0], a[1] + b[1]]) : a ?? b ?? [0, 0];
    return /** @type {Point} */ ([p[0] + n[0] * by, p[1] + n[1] * by]);
  });
}

/** @param {Point} from @param {Point} to @returns {Point} */
function normal(from, to) {
  const [x, y] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(x, y) || 1;
  return [-y / length, x / length];
}
