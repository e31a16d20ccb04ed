// The one place that makes elements. Text is always set as text, so nothing a
// job, a link or a file holds can become markup.

const SVG_NS = 'http://www.w3.org/2000/svg';

/**
 * Attributes and listeners of a new element. A key that starts with "on" and
 * holds a function becomes a listener; true becomes an empty attribute; false,
 * null and undefined leave the attribute off.
 * @typedef {Record<string, string|number|boolean|null|undefined|((event: any) => void)>} Props
 */

/** @typedef {Node|string|null|false} Child */

/**
 * @param {Element} node
 * @param {Props} props
 */
function apply(node, props) {
  for (const [key, value] of Object.entries(props)) {
    if (typeof value === 'function') node.addEventListener(key.slice(2), value);
    else setAttr(node, key, value);
  }
}

/**
 * Sets, or with false, null and undefined removes, one attribute. Writes only
 * on change, since an attribute write costs a style pass even when equal.
 * @param {Element} node
 * @param {string} name
 * @param {string|number|boolean|null|undefined} value
 */
export function setAttr(node, name, value) {
  if (value === false || value === null || value === undefined) {
    if (node.hasAttribute(name)) node.removeAttribute(name);
    return;
  }
  const text = value === true ? '' : String(value);
  if (node.getAttribute(name) !== text) node.setAttribute(name, text);
}

/**
 * @param {Node} node
 * @param {string} text
 */
export function setText(node, text) {
  if (node.textContent !== text) node.textContent = text;
}

/**
 * Makes an HTML element.
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag
 * @param {Props} [props]
 * @param {...Child} children
 * @returns {HTMLElementTagNameMap[K]}
 */
export function el(tag, props = {}, ...children) {
  const node = document.createElement(tag);
  apply(node, props);
  node.append(...children.filter(isChild));
  return node;
}

/**
 * Makes an SVG element.
 * @template {keyof SVGElementTagNameMap} K
 * @param {K} tag
 * @param {Props} [props]
 * @param {...Child} children
 * @returns {SVGElementTagNameMap[K]}
 */
export function svg(tag, props = {}, ...children) {
  const node = /** @type {SVGElementTagNameMap[K]} */ (document.createElementNS(SVG_NS, tag));
  apply(node, props);
  node.append(...children.filter(isChild));
  return node;
}

/**
 * @param {Child} child
 * @returns {child is Node|string}
 */
function isChild(child) {
  return child !== null && child !== false;
}

let lastId = 0;

/**
 * An id that no other element of the page has, for labels and descriptions.
 * @param {string} stem
 */
export function freshId(stem) {
  lastId += 1;
  return `${stem}-${lastId}`;
}
