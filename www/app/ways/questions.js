// The questions of "Which sub?": each owns its elements, shows the answers and
// tells what was answered. Plain words, one thing at a time.

import { el, freshId, setText, svg } from '../dom.js';
import { formatHz, formatNumber, formatValue } from '../format.js';
import { parseQuantity } from '../parse.js';
import { unitOf } from '../units.js';
import { say as sayShared, sayOf as sayOfShared } from '../words.js';
import { bodyPicture, commonScale } from './car-picture.js';
import { USUAL } from './answers.js';
import { BootPicture } from './boot-picture.js';
import { bootLitres, clampSpace, crates, shareOfBoot, sideOf, spaceLitres, toSide } from './boot-space.js';
import { LEAST, MOST, toTape } from './tape.js';
import { say } from './words.js';

/** @typedef {import('./answers.js').Answers} Answers */
/** @typedef {import('./replies.js').Questions} Questions */
/** @typedef {import('../views/model.js').BodyPreset} BodyPreset */
/** @typedef {import('../units.js').System} System */

/**
 * @typedef {object} Question
 * @property {string} title
 * @property {string} lead
 * @property {HTMLElement} root
 * @property {(answers: Answers, system: System) => void} update
 * @property {(answers: Answers) => string} assumes what is taken when it is skipped, after "we take"
 * @property {() => boolean} [holds] something in it must be mended before going on; puts the reader on it
 */

/** The most that can be named as a price: more is a slip of the finger. */
const MOST_SPENT = 1e6;

/** What is taken where nothing is said. @param {Questions} known */
const usual = (known) => ({ ...USUAL, ...known.assumed });

/** @typedef {(changes: Partial<Answers>) => void} Tell */

/**
 * @param {BodyPreset[]} bodies
 * @param {Questions} known
 * @param {Tell} tell
 * @returns {Question}
 */
export function carQuestion(bodies, known, tell) {
  const [width, height] = [164, 70];
  const scale = commonScale(bodies, width, height);
  const group = freshId('which-body');
  const styles = bodies.map((b) => {
    const input = el('input', { type: 'radio', name: group, onchange: () => tell({ body: b.key }) });
    return { key: b.key, input, root: el('label', { class: 'body' }, input, bodyPicture(b, width, height, scale), el('span', {}, sayOfShared('body', b.key))) };
  });
  /** @type {System} */
  let system = 'metric';
  let body = usual(known).body;
  const tapes = /** @type {const} */ ([
    ['length_mm', say('tape_length'), say('tape_length_help')], ['width_mm', say('tape_width'), say('tape_width_help')], ['height_mm', say('tape_height'), say('tape_height_help')],
  ]).map(([key, label, help]) => {
    const id = freshId('tape');
    const note = el('p', { class: 'tape-note', id: `${id}-note` }, help);
    const unit = el('span', { class: 'unit', 'aria-hidden': 'true' });
    const input = el('input', { id, type: 'text', inputmode: 'decimal', autocomplete: 'off', 'aria-describedby': note.id });
    input.addEventListener('change', () => {
      const mid = bodies.find((b) => b.key === body)?.cabin[key] ?? 2000;
      const [min, max] = [Math.ceil(LEAST * mid), Math.floor(MOST * mid)];
      const parsed = parseQuantity(input.value, 'mm', unitOf('mm', system), min, max);
      const wrong = !parsed.ok && parsed.why !== 'empty';
      input.setAttribute('aria-invalid', String(wrong));
      const limits = { label, min: `${formatValue(min, 'mm', system)}`, max: `${formatValue(max, 'mm', system)} ${unitOf('mm', system).sign}` };
      setText(note, wrong ? sayShared('bad_range', limits) : help);
      note.classList.toggle('wrong', wrong);
      if (!wrong) tell({ [key]: parsed.ok ? parsed.value : undefined });
    });
    return { key, input, unit, root: el('div', { class: 'tape-row' }, el('label', { for: id }, label), el('span', { class: 'entry' }, input, unit), note) };
  });
  const tape = el('details', { class: 'more' }, el('summary', {}, say('tape')), el('p', { class: 'aside' }, say('tape_lead')), ...tapes.map((t) => t.root));
  return {
    title: say('car_title'), lead: say('car_lead'),
    root: el('div', { class: 'q-car' }, el('fieldset', { class: 'car-styles' }, el('legend', { class: 'visually-hidden' }, say('car_title')), ...styles.map((s) => s.root)), tape),
    update(a, now) {
      system = now;
      body = a.body ?? usual(known).body;
      for (const s of styles) s.input.checked = s.key === a.body;
      for (const t of tapes) {
        setText(t.unit, unitOf('mm', system).sign);
        const value = a[t.key];
        if (document.activeElement !== t.input && t.input.getAttribute('aria-invalid') !== 'true') t.input.value = value ? formatValue(value, 'mm', system) : '';
        if (value) tape.open = true;
      }
    },
    assumes: () => say('assume_body', { name: sayOfShared('body', usual(known).body).toLowerCase() }),
  };
}

/**
 * @param {BodyPreset[]} bodies
 * @param {Questions} known
 * @param {Tell} tell
 * @returns {Question}
 */
export function bootQuestion(bodies, known, tell) {
  const pct = usual(known).boot_pct;
  const presetOf = (/** @type {Answers} */ a) => /** @type {BodyPreset} */ (toTape(/** @type {BodyPreset} */ (bodies.find((b) => b.key === (a.body ?? usual(known).body)) ?? bodies[0]), a));
  /** @type {Answers} */
  let answers = {};
  const spaceOf = (/** @type {Answers} */ a) => (a.space ? clampSpace(presetOf(a).boot, a.space) : shareOfBoot(presetOf(a).boot, pct / 100));
  const picture = new BootPicture((space) => tell({ space: clampSpace(presetOf(answers).boot, space) }));
  const shares = /** @type {const} */ ([[0.18, 'boot_slice'], [1 / 3, 'boot_third'], [0.5, 'boot_half'], [1, 'boot_all']]).map(([share, key]) => ({
    share, root: el('button', { type: 'button', class: 'plain-choice', 'aria-pressed': 'false', onclick: () => {
      const { boot } = presetOf(answers);
      tell({ space: toSide(boot, shareOfBoot(boot, share), sideOf(boot, spaceOf(answers))) });
    } }, say(key)),
  }));
  const group = freshId('which-side');
  const sides = /** @type {const} */ (['whole', 'left', 'right']).map((side) => {
    const input = el('input', { type: 'radio', name: group, onchange: () => tell({ space: toSide(presetOf(answers).boot, spaceOf(answers), side) }) });
    return { side, input, root: el('label', { class: 'segment' }, input, el('span', {}, say(/** @type {const} */ (`side_${side}`)))) };
  });
  const takes = el('p', { class: 'boot-says', 'aria-live': 'polite' });
  return {
    title: say('boot_title'), lead: say('boot_lead'),
    root: el('div', { class: 'q-boot' }, picture.root,
      el('div', { class: 'plain-choices', role: 'group', 'aria-label': say('boot_shares') }, ...shares.map((s) => s.root)),
      el('fieldset', { class: 'sides' }, el('legend', { class: 'visually-hidden' }, say('side')), el('div', { class: 'segments' }, ...sides.map((s) => s.root))), takes),
    update(a, system) {
      answers = a;
      const preset = presetOf(a);
      const { boot } = preset;
      const space = spaceOf(a);
      picture.update(preset, space, !a.space, system);
      const side = sideOf(boot, space);
      for (const s of sides) s.input.checked = s.side === side;
      const whole = toSide(boot, space, 'whole');
      for (const s of shares) s.root.setAttribute('aria-pressed', String(Boolean(a.space) && space.height_mm >= boot.height_mm - 1 && Math.abs(spaceLitres(boot, whole) / bootLitres(boot) - s.share) < 0.012));
      const { count } = crates(boot, space);
      setText(takes, `${say('boot_takes', { taken: formatNumber(spaceLitres(boot, space), 0), all: formatNumber(bootLitres(boot), 0) })} ${count > 1 ? say('boot_crates', { n: say('crates_many', { n: count }) }) : say(count ? 'boot_crate' : 'boot_crates_none')}`);
    },
    assumes: () => say('assume_boot', { pct: formatNumber(pct, 0) }),
  };
}

/**
 * A wave as long as the note is deep: waves to a fixed stretch in proportion
 * to its frequency.
 * @param {number} hz
 */
function wave(hz) {
  const [width, height] = [112, 26];
  const cycles = hz / 14;
  const quarter = width / (cycles * 4);
  // Each quarter of a sine as one quadratic, near enough to the eye.
  let d = `M0 ${height / 2}`;
  for (let i = 0, x = 0; x < width - 1e-6; i += 1) {
    const to = Math.min(width, x + 2 * quarter);
    const share = (to - x) / (2 * quarter);
    const sign = i % 2 ? 1 : -1;
    d += `Q${((x + to) / 2).toFixed(1)} ${(height / 2 + sign * (height - 4) * share).toFixed(1)} ${to.toFixed(1)} ${height / 2}`;
    x = to;
  }
  return svg('svg', { class: 'note-wave', viewBox: `0 0 ${width} ${height}`, 'aria-hidden': 'true', focusable: 'false' }, svg('path', { d }));
}

/**
 * @param {Questions} known
 * @param {Tell} tell
 * @returns {Question}
 */
export function musicQuestion(known, tell) {
  const kinds = known.music.map((m) => {
    const input = el('input', { type: 'checkbox', onchange: () => tell({ music: kinds.filter((k) => k.input.checked).map((k) => k.key) }) });
    const words = el('span', { class: 'words' }, el('b', {}, m.name), m.say ? el('small', {}, m.say) : null, el('small', { class: 'hz' }, formatHz(m.lowest_hz)));
    return { key: m.key, input, root: el('label', { class: 'answer-pick' }, input, words, wave(m.lowest_hz)) };
  });
  const list = el('fieldset', { class: 'picks music' }, el('legend', { class: 'visually-hidden' }, say('music_title')), ...kinds.map((k) => k.root));
  const hz = el('input', { type: 'checkbox', onchange: () => list.classList.toggle('with-hz', hz.checked) });
  return {
    title: say('music_title'), lead: say('music_lead'),
    root: el('div', { class: 'q-music' }, list, el('label', { class: 'tick-line' }, hz, say('music_hz'))),
    update(a) {
      for (const k of kinds) k.input.checked = a.music?.includes(k.key) ?? false;
    },
    assumes() {
      const m = known.music.find((one) => one.key === usual(known).music);
      return m ? say('assume_music', { name: m.name, hz: formatHz(m.lowest_hz) }) : '';
    },
  };
}

/** Rings that spread from a point: one for each step of loudness. @param {number} rings */
function loudness(rings) {
  return svg('svg', { class: 'rings', viewBox: '0 0 56 44', 'aria-hidden': 'true', focusable: 'false' },
    svg('circle', { class: 'dot', cx: 8, cy: 22, r: 2.5 }),
    ...Array.from({ length: rings }, (_, i) => {
      const r = 9 + i * 8;
      const [dx, dy] = [r * Math.cos(0.7), r * Math.sin(0.7)];
      return svg('path', { d: `M${(8 + dx).toFixed(1)} ${(22 - dy).toFixed(1)}A${r} ${r} 0 0 1 ${(8 + dx).toFixed(1)} ${(22 + dy).toFixed(1)}` });
    }));
}

/**
 * @param {Questions} known
 * @param {Tell} tell
 * @returns {Question}
 */
export function loudQuestion(known, tell) {
  const group = freshId('which-loud');
  const levels = [...known.loud].sort((a, b) => a.level_db - b.level_db).map((l, i) => {
    const input = el('input', { type: 'radio', name: group, onchange: () => tell({ loud: l.key }) });
    return { key: l.key, input, root: el('label', { class: 'answer-pick' }, input, el('span', { class: 'words' }, el('b', {}, l.name), l.say ? el('small', {}, l.say) : null, el('small', { class: 'hz' }, say('loud_db', { db: formatNumber(l.level_db, 0) }))), loudness(Math.min(5, i + 1))) };
  });
  const assumed = known.loud.find((l) => l.key === usual(known).loud);
  return {
    title: say('loud_title'), lead: say('loud_lead'),
    root: el('div', { class: 'q-loud' }, el('fieldset', { class: 'picks with-hz' }, el('legend', { class: 'visually-hidden' }, say('loud_title')), ...levels.map((l) => l.root)), el('p', { class: 'caution' }, say('loud_caution'))),
    update(a) {
      for (const l of levels) l.input.checked = l.key === a.loud;
    },
    assumes: () => (assumed ? say('assume_loud', { name: assumed.name }) : ''),
  };
}

/**
 * @param {boolean} invented the prices are those of typical drivers, which nobody sells
 * @param {Tell} tell
 * @returns {Question}
 */
export function spendQuestion(invented, tell) {
  const id = freshId('spend');
  const note = el('p', { class: 'tape-note wrong', id: `${id}-note`, role: 'alert' });
  const input = el('input', { id, type: 'text', inputmode: 'decimal', autocomplete: 'off', class: 'large-entry', 'aria-describedby': note.id });
  const wrong = () => input.getAttribute('aria-invalid') === 'true';
  input.addEventListener('change', () => {
    const parsed = parseQuantity(input.value, 'plain', unitOf('plain', 'metric'), 1, MOST_SPENT);
    const refused = !parsed.ok && parsed.why !== 'empty';
    input.setAttribute('aria-invalid', String(refused));
    const limits = { min: formatNumber(1, 0), max: formatNumber(MOST_SPENT, 0) };
    setText(note, !refused ? '' : say(parsed.why === 'too_small' || parsed.why === 'too_large' ? 'spend_range' : 'spend_bad', { text: input.value.trim(), ...limits }));
    tell({ budget: parsed.ok ? parsed.value : undefined });
  });
  return {
    title: say('spend_title'), lead: say(invented ? 'spend_lead_invented' : 'spend_lead'),
    root: el('div', { class: 'q-spend' }, el('label', { for: id }, say('spend_label')), input, note),
    update(a) {
      if (document.activeElement !== input && !wrong()) input.value = a.budget ? formatNumber(a.budget, 2) : '';
    },
    assumes: () => say('spend_none'),
    holds() {
      if (wrong()) input.focus();
      return wrong();
    },
  };
}
