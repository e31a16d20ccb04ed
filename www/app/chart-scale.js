// Axes: where a value falls on the paper and which values get a line.

/**
 * A logarithmic frequency axis.
 * @param {number} fromHz
 * @param {number} toHz
 * @param {number} left px
 * @param {number} right px
 */
export function frequencyAxis(fromHz, toHz, left, right) {
  const a = Math.log(fromHz);
  const k = (right - left) / (Math.log(toHz) - a);
  return {
    /** @param {number} hz */
    toPx: (hz) => left + (Math.log(hz) - a) * k,
    /** @param {number} at px */
    toHz: (at) => Math.exp(a + (Math.min(right, Math.max(left, at)) - left) / k),
  };
}

/**
 * Lines of a frequency axis; the named ones are labelled.
 * @param {number} fromHz
 * @param {number} toHz
 * @returns {{hz: number, named: boolean}[]}
 */
export function frequencyTicks(fromHz, toHz) {
  const ticks = [];
  for (let decade = 1; decade <= 1e5; decade *= 10) {
    for (let n = 1; n < 10; n += 1) {
      const hz = n * decade;
      if (hz >= fromHz * 0.999 && hz <= toHz * 1.001) ticks.push({ hz, named: n === 1 || n === 2 || n === 3 || n === 5 });
    }
  }
  return ticks;
}

/**
 * How a chart chooses the span of its upright axis.
 * @typedef {object} SpanRule
 * @property {number} [span] a fixed span below the top, as for levels
 * @property {number} step the top and foot fall on multiples of this
 * @property {number} [least] the top is at least this
 * @property {number} [most] the top is at most this
 * @property {number} [foot] a fixed foot; without it and without a span the data decide
 */

/**
 * A span that holds the values and stays put while they move a little, so that
 * a dragged curve moves and not the paper under it.
 * @param {SpanRule} rule
 * @param {number} low
 * @param {number} high
 * @param {[number, number]|null} previous
 * @returns {[number, number]}
 */
export function chooseSpan(rule, low, high, previous) {
  const up = (/** @type {number} */ v) => Math.ceil(v / rule.step - 1e-9) * rule.step;
  const room = (previous ? previous[1] - previous[0] : rule.step) * 0.04;
  let top = Math.max(rule.least ?? -Infinity, up(high + room));
  if (rule.most !== undefined) top = Math.min(rule.most, top);
  if (previous && high + room <= previous[1] && top > previous[1] - rule.step * 1.6) top = previous[1];
  let foot = rule.foot ?? (rule.span === undefined ? Math.floor((low - room) / rule.step) * rule.step : top - rule.span);
  if (previous && rule.foot === undefined && rule.span === undefined && low - room >= previous[0] && foot < previous[0] + rule.step * 1.6) foot = previous[0];
  if (!(top > foot)) top = foot + rule.step;
  return [foot, top];
}

/**
 * Between three and seven lines at round values.
 * @param {number} foot
 * @param {number} top
 * @param {number} [wanted]
 */
export function valueTicks(foot, top, wanted = 5) {
  const raw = (top - foot) / wanted;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].map((m) => m * power).find((s) => s >= raw * 0.999) ?? raw;
  const ticks = [];
  for (let n = Math.ceil(foot / step - 1e-9); n * step <= top + step * 1e-9; n += 1) ticks.push(n * step);
  return { ticks, digits: Math.max(0, -Math.floor(Math.log10(step) + 1e-9)) };
}
