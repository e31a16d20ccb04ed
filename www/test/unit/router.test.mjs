import assert from 'node:assert/strict';
import { test } from 'node:test';
import { fragmentOf, readFragment, Router } from '../../app/router.js';

/** A window with an address alone, its fragment changed as a browser does it. @param {string} hash */
function window_(hash) {
  /** @type {(() => void)[]} */
  const listeners = [];
  const trail = [hash];
  const view = {
    location: {
      get hash() {
        return trail[trail.length - 1];
      },
      set hash(next) {
        if (next === trail[trail.length - 1]) return;
        trail.push(next);
        for (const fn of listeners) fn();
      },
    },
    history: {
      replaceState: (_, __, next) => {
        trail[trail.length - 1] = next;
      },
    },
    addEventListener: (_, fn) => listeners.push(fn),
  };
  return { view: /** @type {any} */ (view), back: () => { trail.pop(); for (const fn of listeners) fn(); }, trail };
}

test('fragments name places; others are left to whoever knows them', () => {
  assert.deepEqual(readFragment(''), { way: 'job', step: '' });
  assert.deepEqual(readFragment('#/which/boot'), { way: 'which', step: 'boot' });
  assert.deepEqual(readFragment('#/quick'), { way: 'quick', step: '' });
  assert.deepEqual(readFragment('#/nowhere/x'), { way: 'job', step: '' });
  assert.equal(readFragment('#j=1.abc'), null);
  assert.equal(readFragment('#answer'), null);
  assert.equal(fragmentOf('which', 'loud'), '#/which/loud');
});

test('places follow the address, and the back button comes back', () => {
  const { view, back } = window_('');
  /** @type {string[]} */
  const seen = [];
  const router = new Router({ view, onPlace: (p) => seen.push(`${p.way}/${p.step}`) });
  router.start();
  router.go('which');
  router.go('which', 'boot');
  back();
  back();
  assert.deepEqual(seen, ['job/', 'which/', 'which/boot', 'which/', 'job/']);
});

test('a foreign fragment is passed on and changes nothing that is open', () => {
  const { view } = window_('#j=1.abc');
  /** @type {string[]} */
  const seen = [];
  const router = new Router({ view, onPlace: (p) => seen.push(p.way), onForeign: (f) => seen.push(f) });
  router.start();
  router.go('quick');
  view.location.hash = '#answer';
  assert.deepEqual(seen, ['job', '#j=1.abc', 'quick', '#answer']);
  assert.equal(router.place.way, 'quick');
});

test('a forwarding place leaves no step behind', () => {
  const { view, trail } = window_('#/which/old');
  const router = new Router({ view, onPlace: () => {} });
  router.start();
  router.move('which', 'car');
  assert.deepEqual(trail, ['#/which/car']);
  assert.deepEqual(router.place, { way: 'which', step: 'car' });
});
