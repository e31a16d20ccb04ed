/**
 * JSON pointers (RFC 6901) into plain data: '/subs/0/box/net_l'. The empty
 * pointer is the whole.
 */

/** @param {string} pointer @returns {string[]} its steps */
export function steps(pointer) {
  if (pointer === '') return [];
  if (!pointer.startsWith('/')) throw new TypeError(`Not a JSON pointer: ${pointer}`);
  return pointer
    .slice(1)
    .split('/')
    .map((step) => step.replaceAll('~1', '/').replaceAll('~0', '~'));
}

/** Joins steps to a pointer. @param {...(string|number)} parts @returns {string} */
export function pointerOf(...parts) {
  return parts.map((part) => `/${String(part).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

/** What stands at a pointer, or undefined. @param {any} root @param {string} pointer @returns {any} */
export function getAt(root, pointer) {
  let at = root;
  for (const step of steps(pointer)) {
    if (at === null || typeof at !== 'object' || !Object.hasOwn(at, step)) return undefined;
    at = at[step];
  }
  return at;
}

/**
 * A copy of root with the value at the pointer; everything beside the way
 * there is shared with root. The value undefined removes a key, and takes an
 * element out of an array; the step '-' adds to the end of one. Missing
 * objects on the way are made.
 *
 * @template T
 * @param {T} root
 * @param {string} pointer
 * @param {any} value
 * @returns {T}
 */
export function setAt(root, pointer, value) {
  return setSteps(root, steps(pointer), value);
}

/** @param {any} at @param {string[]} path @param {any} value @returns {any} */
function setSteps(at, path, value) {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  if (step === '__proto__') throw new TypeError('A pointer may not lead to __proto__.');
  if (Array.isArray(at)) {
    const index = step === '-' ? at.length : Number(step);
    if (!Number.isInteger(index) || index < 0 || index > at.length) throw new RangeError(`No element ${step} here.`);
    const copy = at.slice();
    if (value === undefined && rest.length === 0) copy.splice(index, 1);
    else copy[index] = setSteps(at[index], rest, value);
    return copy;
  }
  const copy = at !== null && typeof at === 'object' ? { ...at } : {};
  if (value === undefined && rest.length === 0) delete copy[step];
  else copy[step] = setSteps(copy[step], rest, value);
  return copy;
}

/** Whether a pointer is another one or lies within it. @param {string} pointer @param {string} outer */
export function within(pointer, outer) {
  return pointer === outer || pointer.startsWith(`${outer}/`);
}
