// What the views are given: the job, what the engine made of it, and how the
// reader wishes to see it.

/**
 * @typedef {import('../job.js').Job} Job
 * @typedef {import('../units.js').System} System
 *
 * @typedef {object} Finding
 * @property {string} at JSON pointer
 * @property {'error'|'warning'|'note'} level
 * @property {string} say
 *
 * @typedef {object} CurveMeta
 * @property {string} id
 * @property {string} name
 * @property {string} unit
 * @property {number} offset
 * @property {number} length
 *
 * @typedef {object} Answer
 * @property {string} headline
 * @property {string} because
 * @property {(string|{say: string, part?: string})[]} [lines]
 * @property {number} [reach_hz]
 * @property {string} [seat]
 * @property {string} [limit]
 * @property {number} [limit_code]
 * @property {number} [limit_below_hz]
 * @property {number} [level_db]
 *
 * @typedef {object} SubDerived
 * @property {Record<string, number>} [driver] the complete set, in the document's keys and units
 * @property {number} [system_hz] resonance in the box
 * @property {number} [qtc]
 * @property {number[]} [port_length_mm]
 * @property {number} [drive_v]
 * @property {number} [load_min_ohm]
 * @property {number} [xmax_mm]
 *
 * @typedef {object} Reply
 * @property {Finding[]|null} findings
 * @property {Answer} [answer]
 * @property {{cabin?: {volume_m3?: number, air_m3?: number, unity_hz?: number, half_wave_hz?: number, modes_hz?: number[]}, subs?: SubDerived[], doors?: object}} [derived]
 * @property {string[]} [seats]
 * @property {CurveMeta[]} [curves]
 */

/**
 * What hello says of a body style: a car to start from.
 * @typedef {object} BodyPreset
 * @property {string} key
 * @property {string} name
 * @property {import('../job.js').Cabin} cabin
 * @property {import('../job.js').Boot} boot
 * @property {import('../job.js').Finish} finish
 * @property {import('../job.js').Seat[]} seats
 * @property {import('../job.js').Place} door
 * @property {{width_mm: number, height_mm: number, depth_mm: number, place: import('../job.js').Place}} stand
 */

/** A choice of the page: which part's sheet is open. @typedef {'cabin'|'doors'|'seats'|'amplifier'|'sub'|'box'} Part */

/** Parts as they follow each other along the car. @type {Part[]} */
export const PARTS = ['doors', 'seats', 'amplifier', 'cabin', 'sub', 'box'];

/**
 * A moment of the page. A view reads it and keeps nothing of it that it does
 * not draw.
 */
export class Model {
  /**
   * @param {Job} job
   * @param {Reply|null} reply of the last job that could be calculated
   * @param {Float64Array} floats the numbers of that reply
   * @param {Finding[]} findings about the job as it is now
   * @param {boolean} stale the reply is of an older job than this
   * @param {System} system
   * @param {string} seat where it is heard
   */
  constructor(job, reply, floats, findings, stale, system, seat) {
    this.job = job;
    this.reply = reply;
    this.floats = floats;
    this.findings = findings;
    this.stale = stale;
    this.system = system;
    this.seat = seat;
    /** Which sub the curves of one sub are about. */
    this.sub = 0;
    /** @type {Map<string, CurveMeta>} */
    this.curves = new Map((reply?.curves ?? []).map((c) => [c.id, c]));
  }

  /**
   * A curve's numbers, without copying them; null where there is none.
   * @param {string} id
   * @returns {Float64Array|null}
   */
  curve(id) {
    const meta = this.curves.get(id);
    return meta ? this.floats.subarray(meta.offset, meta.offset + meta.length) : null;
  }

  /** @param {number} index */
  subDerived(index) {
    return this.reply?.derived?.subs?.[index];
  }

  /**
   * A driver's complete set in the document's keys and units, as far as the
   * engine has worked it out.
   * @param {number} index
   * @returns {Record<string, number>|undefined}
   */
  driverDerived(index) {
    return this.subDerived(index)?.driver;
  }

  /**
   * Findings about a value or about anything within it.
   * @param {string} pointer
   */
  findingsAt(pointer) {
    return this.findings.filter((f) => f.at === pointer || f.at.startsWith(`${pointer}/`));
  }

  /** @param {string} pointer */
  isAssumed(pointer) {
    return this.job.assumed?.includes(pointer) ?? false;
  }
}

/** The part a JSON pointer belongs to. @param {string} pointer @returns {Part|null} */
export function partOf(pointer) {
  if (/^\/subs\/\d+\/box/.test(pointer) || /^\/subs\/\d+\/place/.test(pointer)) return 'box';
  if (/^\/(subs\/\d+|doors)\/channel/.test(pointer)) return 'amplifier';
  if (/^\/subs\/\d+/.test(pointer)) return 'sub';
  if (pointer.startsWith('/doors')) return 'doors';
  if (pointer.startsWith('/car/seats') || pointer.startsWith('/aim')) return 'seats';
  if (pointer.startsWith('/car') || pointer.startsWith('/air')) return 'cabin';
  return null;
}
