// What the customer has answered so far, and what is taken where they have
// not. Pure: kept and shown elsewhere.

/** @typedef {import('./replies.js').WhichRequest} WhichRequest */
/** @typedef {import('./replies.js').Questions} Questions */
/** @typedef {import('./replies.js').Space} Space */

/**
 * Absent is not answered.
 * @typedef {object} Answers
 * @property {string} [body]
 * @property {number} [length_mm]
 * @property {number} [width_mm]
 * @property {number} [height_mm]
 * @property {Space} [space]
 * @property {string[]} [music]
 * @property {string} [loud]
 * @property {number} [budget]
 */

/**
 * What the engine takes where nothing was said; where it names its own, that
 * counts. Its answer says each again in words.
 * @type {import('./replies.js').Usual}
 */
export const USUAL = { body: 'hatch', boot_pct: 30, music: 'pop', loud: 'loud' };

/** Steps of the way, in order; the last holds what came of it. @typedef {'car'|'boot'|'music'|'loud'|'spend'|'choices'} Step */

/**
 * @param {boolean} priced the shelf has prices
 * @returns {Step[]}
 */
export function stepsOf(priced) {
  return ['car', 'boot', 'music', 'loud', ...(priced ? /** @type {Step[]} */ (['spend']) : []), 'choices'];
}

/** The step at which an assumption can be answered. @type {Record<string, Step>} */
export const STEP_OF = {
  body: 'car', car: 'car', length_mm: 'car', width_mm: 'car', height_mm: 'car', boot_pct: 'boot', space: 'boot', boot: 'boot',
  music: 'music', lowest_hz: 'music', loud: 'loud', level_db: 'loud', budget: 'spend',
};

/**
 * The engine's request: what was answered and nothing else, so that the
 * engine says what it assumed.
 * @param {Answers} a
 * @param {import('../job.js').Driver[]} [drivers] to choose from; none leaves it to the engine
 * @returns {WhichRequest}
 */
export function requestOf(a, drivers = []) {
  /** @type {WhichRequest} */
  const r = {};
  if (a.body) r.body = a.body;
  if (a.length_mm) r.length_mm = a.length_mm;
  if (a.width_mm) r.width_mm = a.width_mm;
  if (a.height_mm) r.height_mm = a.height_mm;
  if (a.space) r.space = patchOf(a.space);
  if (a.music?.length) r.music = a.music;
  if (a.loud) r.loud = a.loud;
  if (a.budget) r.budget = a.budget;
  if (drivers.length) r.drivers = drivers;
  return r;
}

/** @param {Space} s @returns {import('./replies.js').Patch} */
function patchOf(s) {
  const mm = Math.round;
  return { from_seat_mm: mm(s.x_mm), middle_mm: mm(s.y_mm), length_mm: mm(s.length_mm), width_mm: mm(s.width_mm), height_mm: mm(s.height_mm) };
}

/**
 * The drivers of a kept shelf, trusting none of it.
 * @param {unknown} kept
 * @returns {import('../job.js').Driver[]}
 */
export function ownDrivers(kept) {
  if (!Array.isArray(kept)) return [];
  return kept.map((k) => k?.driver).filter((d) => typeof d === 'object' && d !== null && typeof d.name === 'string');
}

/**
 * Whether a step has an answer.
 * @param {Answers} a
 * @param {Step} step
 */
export function answered(a, step) {
  switch (step) {
    case 'car': return Boolean(a.body || a.length_mm || a.width_mm || a.height_mm);
    case 'boot': return Boolean(a.space);
    case 'music': return Boolean(a.music?.length);
    case 'loud': return Boolean(a.loud);
    case 'spend': return Boolean(a.budget);
    default: return true;
  }
}

/**
 * The answers without those of one step.
 * @param {Answers} a
 * @param {Step} step
 * @returns {Answers}
 */
export function without(a, step) {
  const next = { ...a };
  /** @type {Record<string, (keyof Answers)[]>} */
  const keys = { car: ['body', 'length_mm', 'width_mm', 'height_mm'], boot: ['space'], music: ['music'], loud: ['loud'], spend: ['budget'] };
  for (const key of keys[step] ?? []) delete next[key];
  return next;
}

/**
 * The answers as they were kept, trusting none of it.
 * @param {unknown} kept
 * @returns {Answers}
 */
export function readAnswers(kept) {
  /** @type {Answers} */
  const out = {};
  if (typeof kept !== 'object' || kept === null) return out;
  const k = /** @type {Record<string, unknown>} */ (kept);
  for (const key of /** @type {const} */ (['body', 'loud'])) {
    const value = k[key];
    if (typeof value === 'string' && value) out[key] = value;
  }
  for (const key of /** @type {const} */ (['length_mm', 'width_mm', 'height_mm', 'budget'])) {
    const value = k[key];
    if (typeof value === 'number' && value > 0 && Number.isFinite(value)) out[key] = value;
  }
  if (Array.isArray(k.music)) out.music = k.music.filter((m) => typeof m === 'string');
  const s = /** @type {Record<string, unknown>|undefined} */ (typeof k.space === 'object' && k.space ? k.space : undefined);
  if (s && ['x_mm', 'y_mm', 'length_mm', 'width_mm', 'height_mm'].every((key) => Number.isFinite(s[key]))) out.space = /** @type {Space} */ (/** @type {unknown} */ (s));
  return out;
}

/**
 * What matters to the customer: three shares that add up to one.
 * @typedef {{deeper: number, louder: number, smaller: number}} Mix
 */

/** @type {Mix} */
export const EVEN_MIX = { deeper: 1 / 3, louder: 1 / 3, smaller: 1 / 3 };

/**
 * Sets one share; the others keep their proportion to each other.
 * @param {Mix} mix
 * @param {keyof Mix} key
 * @param {number} share 0 to 1
 * @returns {Mix}
 */
export function withShare(mix, key, share) {
  const s = Math.max(0, Math.min(1, share));
  const others = /** @type {(keyof Mix)[]} */ (['deeper', 'louder', 'smaller']).filter((k) => k !== key);
  const rest = others.reduce((sum, k) => sum + mix[k], 0);
  const next = { ...mix, [key]: s };
  for (const k of others) next[k] = rest > 1e-9 ? (1 - s) * mix[k] / rest : (1 - s) / 2;
  return next;
}

/**
 * A list in the order a mix wants; equals, and all of it while there is no mix,
 * stay as the engine ranked them.
 * @template {{scores: import('./replies.js').Scores}} T
 * @param {T[]} list
 * @param {Mix|null} mix
 * @returns {T[]}
 */
export function inOrder(list, mix) {
  if (!mix) return list;
  const worth = (/** @type {T} */ c) => c.scores.deeper * mix.deeper + c.scores.louder * mix.louder + c.scores.smaller * mix.smaller - (c.scores.short ?? 0) - (c.scores.fuss ?? 0);
  return list.map((c, i) => ({ c, i, w: worth(c) })).sort((a, b) => b.w - a.w || a.i - b.i).map((e) => e.c);
}
