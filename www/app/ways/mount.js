// Puts the three ways in on the page: their names on top, and the screen of
// the one that is open.

import { el, setAttr } from '../dom.js';
import { Router, WAYS, fragmentOf } from '../router.js';
import { Leaf } from '../workshop/leaf.js';
import { QuickWay } from './quick.js';
import { WhichWay } from './which.js';
import { say } from './words.js';

/** @typedef {import('../router.js').Way} Way */

/**
 * What the page gives.
 * @typedef {object} MountParts
 * @property {import('../engine.js').Engine} engine
 * @property {import('../storage.js').Storage} storage
 * @property {{units: import('../units.js').System}} prefs read whenever something is drawn
 * @property {import('../views/model.js').BodyPreset[]} bodies
 * @property {HTMLElement} header where the names of the ways go, after the product's
 * @property {boolean} firstVisit nothing was kept here: say what each way is for
 * @property {(job: import('../job.js').Job, label: string) => Promise<void>} adopt makes a job the full job; nothing that was there is lost
 * @property {(fragment: string) => void} [onForeign] a fragment of the address that names no place, such as a shared job
 */

/**
 * What a way needs.
 * @typedef {object} WayParts
 * @property {import('../engine.js').Engine} engine
 * @property {import('../storage.js').Storage} storage
 * @property {() => import('../units.js').System} system
 * @property {import('../views/model.js').BodyPreset[]} bodies
 * @property {(way: Way, step?: string) => void} go
 * @property {(job: import('../job.js').Job, label: string) => void} adopt hands a job over and opens it
 */

/**
 * @param {MountParts} parts
 * @returns {{router: Router, refresh: () => void}} refresh shows what is open in the reader's units as they are now
 */
export function mountWays(parts) {
  const root = document.documentElement;
  const jobMain = /** @type {HTMLElement} */ (document.querySelector('main'));
  const links = new Map(WAYS.map((way) => [way, el('a', { href: fragmentOf(way) }, el('b', {}, say(`way_${way}`)), el('small', {}, say(`offer_${way}`)))]));
  const nav = el('nav', { class: 'ways', 'aria-label': say('nav') }, ...links.values());
  const product = parts.header.querySelector('.product');
  if (product) product.after(nav);
  else parts.header.prepend(nav);
  root.classList.toggle('first-visit', parts.firstVisit);

  const main = el('main', { class: 'way-main', hidden: true });
  jobMain.after(main);
  /** @type {WayParts} */
  const wayParts = {
    engine: parts.engine, storage: parts.storage, bodies: parts.bodies,
    system: () => parts.prefs.units,
    go: (way, step) => router.go(way, step),
    adopt(job, label) {
      root.classList.remove('first-visit');
      parts.adopt(job, label).then(() => router.go('job'));
    },
  };
  const screens = { which: new WhichWay(wayParts), quick: new QuickWay(wayParts) };
  let first = true;

  const router = new Router({
    onForeign: parts.onForeign,
    onPlace({ way, step }) {
      const screen = way === 'job' ? null : screens[way];
      root.dataset.way = way;
      document.title = say(`title_${way}`);
      for (const [name, link] of links) setAttr(link, 'aria-current', name === way ? 'page' : null);
      if (way !== 'which') screens.which.leave();
      if (way !== 'job') Leaf.closeAll();
      jobMain.hidden = screen !== null;
      main.hidden = screen === null;
      const here = !first;
      first = false;
      if (!screen) {
        if (here) arrive(document.querySelector('#answer'));
        return;
      }
      if (main.firstElementChild !== screen.root) main.replaceChildren(screen.root);
      screen.open(step).then(() => {
        const { place } = router;
        if (place.way !== way || place.step !== step) return;
        links.get('which')?.setAttribute('href', fragmentOf('which', screens.which.lastStep));
        if (here) arrive(screen.heading);
      });
    },
  });

  // The skip link leads past the names on top; here it must leave the
  // address alone, which says what is open.
  document.querySelector('.skip')?.addEventListener('click', (e) => {
    const { way } = router.place;
    if (way === 'job') return;
    e.preventDefault();
    screens[way].heading.focus();
  });
  router.start();
  return {
    router,
    refresh() {
      const { way } = router.place;
      if (way !== 'job') screens[way].update();
    },
  };
}

/** A reader who has come to another screen begins at its top. @param {Element|null} heading */
function arrive(heading) {
  if (heading instanceof HTMLElement) heading.focus({ preventScroll: true });
  window.scrollTo({ top: 0, behavior: 'instant' });
}
