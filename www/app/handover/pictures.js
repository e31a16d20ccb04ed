// The drawings as files of their own: SVG that needs no style sheet, and PNG.

const SVG_NS = 'http://www.w3.org/2000/svg';

/** What decides the look of a shape or a word, and is inherited from the page's style sheet. */
const LOOK = ['fill', 'fill-opacity', 'stroke', 'stroke-width', 'stroke-dasharray', 'stroke-linecap', 'stroke-linejoin', 'opacity', 'display', 'visibility', 'font-family', 'font-size', 'font-weight', 'font-style', 'text-anchor', 'paint-order', 'dominant-baseline'];

/**
 * A copy of a drawing that looks the same outside the page.
 * @param {SVGSVGElement} drawing in the page, so that its style is known
 * @returns {string} SVG text
 */
export function standaloneSVG(drawing) {
  const copy = /** @type {SVGSVGElement} */ (drawing.cloneNode(true));
  const from = drawing.querySelectorAll('*');
  copy.querySelectorAll('*').forEach((node, i) => {
    const style = getComputedStyle(/** @type {Element} */ (from[i]));
    for (const key of LOOK) {
      const value = style.getPropertyValue(key);
      if (value) node.setAttribute(key, value);
    }
    for (const name of ['class', 'style', 'tabindex', 'role']) node.removeAttribute(name);
  });
  copy.querySelectorAll('foreignObject').forEach((node) => node.remove());
  const { width, height } = drawing.getBoundingClientRect();
  copy.setAttribute('xmlns', SVG_NS);
  copy.setAttribute('width', String(Math.round(width)));
  copy.setAttribute('height', String(Math.round(height)));
  if (!copy.hasAttribute('viewBox')) copy.setAttribute('viewBox', `0 0 ${Math.round(width)} ${Math.round(height)}`);
  const paper = document.createElementNS(SVG_NS, 'rect');
  paper.setAttribute('width', '100%');
  paper.setAttribute('height', '100%');
  paper.setAttribute('fill', getComputedStyle(document.documentElement).getPropertyValue('--paper').trim() || '#fff');
  copy.prepend(paper);
  for (const name of ['class', 'style', 'tabindex', 'role', 'aria-labelledby', 'aria-label']) copy.removeAttribute(name);
  return new XMLSerializer().serializeToString(copy);
}

/**
 * @param {SVGSVGElement} drawing
 * @param {number} scale pixels for each unit of the drawing
 * @returns {Promise<Blob>} PNG
 */
export async function drawingPNG(drawing, scale = 3) {
  const text = standaloneSVG(drawing);
  const { width, height } = drawing.getBoundingClientRect();
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(text)}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(width * scale);
  canvas.height = Math.round(height * scale);
  /** @type {CanvasRenderingContext2D} */ (canvas.getContext('2d')).drawImage(image, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('The picture could not be made.'))), 'image/png');
  });
}
