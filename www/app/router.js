// Which way in is open, from the fragment of the address, so that the back
// button, a bookmark and a link all work without a server.

/** The ways into a job. @typedef {'which'|'quick'|'job'} Way */
/** A place on the page: a way in, and a step within it ('' for its beginning). @typedef {{way: Way, step: string}} Place */

/** @type {Way[]} */
export const WAYS = ['which', 'quick', 'job'];

/**
 * The place a fragment names. No fragment is the full job, and so is a path
 * nobody knows. A fragment that is not a path is somebody else's: null.
 * @param {string} fragment with or without its '#'
 * @returns {Place|null}
 */
export function readFragment(fragment) {
  const text = fragment.replace(/^#/, '');
  if (text === '') return { way: 'job', step: '' };
  if (!text.startsWith('/')) return null;
  const [, way = '', step = ''] = text.split('/');
  const known = WAYS.find((w) => w === way);
  return known ? { way: known, step } : { way: 'job', step: '' };
}

/**
 * @param {Way} way
 * @param {string} [step]
 */
export function fragmentOf(way, step = '') {
  return step ? `#/${way}/${step}` : `#/${way}`;
}

/**
 * @typedef {object} RouterParts
 * @property {(place: Place) => void} onPlace the reader has come to another place
 * @property {(fragment: string) => void} [onForeign] a fragment that is no place of ours; the page stays where it is
 * @property {Pick<Window, 'location'|'history'|'addEventListener'>} [view] the window, or what stands for it in a test
 */

export class Router {
  /** @param {RouterParts} parts */
  constructor({ onPlace, onForeign = () => {}, view = window }) {
    this.onPlace = onPlace;
    this.onForeign = onForeign;
    this.view = view;
    /** @type {Place} */
    this.place = { way: 'job', step: '' };
  }

  /** Goes to where the address says, now and whenever it changes. */
  start() {
    this.view.addEventListener('hashchange', () => this.#read(false));
    this.#read(true);
  }

  /**
   * Goes to a place; the back button comes back from it.
   * @param {Way} way
   * @param {string} [step]
   */
  go(way, step = '') {
    this.view.location.hash = fragmentOf(way, step);
  }

  /**
   * The same without a step of the back button's: for a place that only
   * forwards to another.
   * @param {Way} way
   * @param {string} [step]
   */
  move(way, step = '') {
    this.view.history.replaceState(null, '', fragmentOf(way, step));
    this.#read(false);
  }

  /** @param {boolean} first */
  #read(first) {
    const fragment = this.view.location.hash;
    const place = readFragment(fragment);
    if (!place) {
      if (first) this.onPlace(this.place);
      this.onForeign(fragment);
      return;
    }
    if (!first && place.way === this.place.way && place.step === this.place.step) return;
    this.place = place;
    this.onPlace(place);
  }
}
