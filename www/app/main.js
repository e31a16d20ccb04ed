// Wires the page: store, engine and views. Each is made elsewhere.

import { autosave, lastJob, newId } from './autosave.js';
import { startEngine } from './boot.js';
import { mountCabin } from './cabin/mount.js';
import { el, setText } from './dom.js';
import { FileError, pickFile, readJob, readText, saveJob, takeFiles } from './files.js';
import { mountHandover } from './handover/mount.js';
import { keepOffline } from './offline.js';
import { EngineError } from './protocol.js';
import { rehearse } from './rehearse.js';
import { openStorage, storageSays } from './storage.js';
import { createStore } from './store.js';
import { followWork } from './timing.js';
import { mountWays } from './ways/mount.js';
import { mountWorkshop } from './workshop/mount.js';
import { say } from './words.js';
import { applyPrefs, keepPrefs, readPrefs } from './views/prefs.js';
import { learnLimits } from './views/limits.js';
import { Model } from './views/model.js';
import { Page } from './views/page.js';

/** @typedef {import('./job.js').Job} Job */
/** @typedef {import('./views/model.js').Reply} Reply */

const timing = followWork();
const engine = startEngine();
const prefs = readPrefs();
applyPrefs(prefs);

const bar = el('p', { class: 'notice', role: 'status' });

/** How long a sentence that only reassures stays. */
const BRIEF_MS = 7000;
let passing = 0;

/** A finger or a button is down. */
let held = false;
addEventListener('pointerdown', () => void (held = true), { capture: true });
for (const end of ['pointerup', 'pointercancel']) addEventListener(end, () => void (held = false), { capture: true });

/** How long a dragged value waits for its answer before it is drawn without. */
const PATIENCE_MS = 24;

/** A sentence that stays until the next one, or for a while. @param {string} text @param {boolean} [brief] */
function notice(text, brief = false) {
  clearTimeout(passing);
  setText(bar, text);
  if (brief) passing = window.setTimeout(() => setText(bar, ''), BRIEF_MS);
}

/**
 * The job with only those of its assumed values that words hang on: the list is
 * as long as the rest.
 * @param {Job} job
 */
const bare = (job) => ({ ...job, assumed: (job.assumed ?? []).filter((at) => at.startsWith('/aim/')) });

async function start() {
  const storage = await openStorage();
  const kept = await lastJob(storage).catch(() => undefined);
  const hello = (await engine.call('hello', {})).reply;
  /** @type {Job} */
  const demo = hello.demo;
  // What an older version kept is brought up to date; what cannot be read is
  // left where it is, and the page opens on the demo.
  const job = kept ? await readJob(engine, JSON.stringify(kept.job)).then((o) => o.job, () => undefined) : undefined;
  const store = createStore(job ?? demo);
  const ask = () => engine.call('evaluate', { job: bare(store.job) }, { latest: 'evaluate' });
  // The engine works on the first answer while the page is put together.
  const began = store.job;
  const first = ask();
  first.catch(() => {}); // told below
  const saver = autosave(store, storage, job && kept ? kept.id : newId(), (state) => { if (state.say) notice(state.say); });
  notice(storageSays[storage.kind]);

  learnLimits(hello.limits ?? []);
  const page = new Page(store, prefs, {
    async open() {
      const file = await pickFile();
      if (file) await openText(await readText(file).catch(refuse));
    },
    save: () => saveJob(store.job),
    demo: () => store.replace(demo, say('new_job')),
    prefer(next) {
      const spokenAnew = next.dialect !== prefs.dialect;
      keepPrefs(next);
      Object.assign(prefs, next);
      applyPrefs(prefs);
      ways.refresh();
      // New words reach every corner of the page only when it is made anew.
      if (spokenAnew) saver.flush().then(() => location.reload());
      else show();
    },
  }, bar);
  page.know(hello.bodies ?? [], hello.finishes ?? []);
  const cabin = mountCabin({ page, store, engine });
  let seat = store.job.aim.seat;
  const handover = mountHandover({ engine, store, storage, saver, prefs, menu: page.header.jobMenu, seat: () => seat, notice });
  const workshop = mountWorkshop({ store, engine, storage, page });
  const ways = mountWays({
    engine, storage, prefs, bodies: hello.bodies ?? [], header: page.header.root, firstVisit: !kept,
    adopt: handover.adopt, onForeign: handover.openLink,
  });

  /** @type {{reply: Reply, floats: Float64Array}|null} */
  let last = null;
  /** @type {import('./views/model.js').Finding[]} */
  let findings = [];
  let stale = false;

  let ahead = 0;

  /** @param {boolean} [calculated] */
  function show(calculated = true) {
    clearTimeout(ahead);
    ahead = 0;
    const seats = last?.reply.seats ?? [];
    const heard = seats.length && !seats.includes(seat) ? /** @type {string} */ (seats[0]) : seat;
    const model = new Model(store.job, last?.reply ?? null, last?.floats ?? new Float64Array(), findings, stale, prefs.units, heard);
    page.update(model, calculated);
    workshop.update(model);
    cabin.update(model, calculated);
  }

  /** @param {ReturnType<typeof ask>} [asked] @param {boolean} [again] */
  async function evaluate(asked = ask(), again = false) {
    const work = timing.asked();
    try {
      const { reply, floats } = await asked;
      findings = reply.findings ?? [];
      stale = !reply.curves?.length;
      if (!stale) last = { reply, floats };
      show();
      if (stale) work.failed();
      else work.answered();
    } catch (error) {
      if (error instanceof EngineError && error.kind === 'superseded') return;
      work.failed();
      // The engine has started again by now: what it died of is tried once more.
      if (error instanceof EngineError && error.kind === 'crashed' && !again) {
        await evaluate(ask(), true);
        return;
      }
      page.fail(error instanceof Error ? error.message : String(error));
    }
  }

  page.onSub = show;
  page.onSeat = (next) => {
    seat = next;
    show();
  };
  store.subscribe((job, change) => {
    if (change.pointers.some((p) => p.startsWith('/aim/seat')) || change.kind !== 'set') seat = job.aim.seat;
    evaluate();
    // While a finger moves a handle the answer is mostly there within a frame,
    // and then one drawing does for both. Where it is not, the drawing does not
    // wait. A key is drawn at once: the next one counts from what it did.
    if (change.drag && held) ahead ||= window.setTimeout(() => show(false), PATIENCE_MS);
    else show(change.kind !== 'set');
  });

  /** @param {unknown} error */
  function refuse(error) {
    notice(say('file_refused', { why: error instanceof FileError || error instanceof EngineError ? error.message : String(error) }));
    return undefined;
  }
  /** @param {string|undefined} text */
  async function openText(text) {
    if (text === undefined) return;
    try {
      const opened = await readJob(engine, text);
      // The job that was open stays kept, under its own name.
      await handover.adopt(opened.job, say('open_file'));
      notice(say('file_opened', { name: opened.job.title }), true);
    } catch (error) {
      // What is no job may be a measurement.
      if (!await cabin.takes(text)) refuse(error);
    }
  }
  takeFiles(document.body, { onText: openText, onRefused: refuse, signal: new AbortController().signal });

  show();
  await evaluate(store.job === began ? first : ask());
  rehearse(engine, bare(store.job));
  keepOffline({
    // It only reassures, so it never takes the place of what must be read.
    onReady: () => { if (!bar.textContent) notice(say('offline_ready'), true); },
    onUpdate: (apply) => page.offerUpdate(apply),
  }, () => saver.flush());
}

start().catch((error) => {
  document.querySelector('main')?.append(el('p', { class: 'trouble', role: 'alert' }, error instanceof Error ? error.message : String(error)));
});
