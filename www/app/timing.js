/**
 * Says, for tests and measurements, whether what is drawn answers the job as
 * it is, and how long each change took from the reader's hand to the screen.
 *
 * The root element's data-state is 'loading' until the first answer, then
 * 'stale' while a newer one is worked out, 'fresh' when it is drawn, and
 * 'failed' when there is none.
 */

/**
 * @typedef {object} Work  one request for an answer
 * @property {() => void} answered  its answer and all its curves are in the page
 * @property {() => void} failed  it has none
 *
 * @typedef {object} Timing
 * @property {() => Work} asked  the job has changed: what is drawn is not its answer any more
 */

/** What the reader's hand sends. */
const INPUTS = ['input', 'change', 'click', 'keydown', 'pointermove'];

/** @returns {Timing} */
export function followWork() {
  const root = document.documentElement;
  root.dataset.state = 'loading';
  let first = true;
  /** When the input that is being handled was made. */
  let hand = 0;
  /** The request whose answer is that of the job as it is. @type {Work|null} */
  let newest = null;
  for (const kind of INPUTS) {
    addEventListener(kind, (event) => void (hand = event.timeStamp), { capture: true, passive: true });
  }
  return {
    asked() {
      if (root.dataset.state !== 'loading') root.dataset.state = 'stale';
      const start = hand;
      /** @type {Work} */
      const work = {
        answered() {
          if (work === newest) root.dataset.state = 'fresh';
          if (first) performance.mark('bootfloor:answer');
          else if (start) measure(start);
          first = false;
        },
        failed() {
          if (work === newest) root.dataset.state = 'failed';
        },
      };
      newest = work;
      return work;
    },
  };
}

/** @param {number} start  when the input was made that has just been answered */
function measure(start) {
  performance.measure('bootfloor:drawn', { start, end: performance.now() });
  // A message posted in a frame's callback comes after that frame's paint.
  requestAnimationFrame(() => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      performance.measure('bootfloor:painted', { start, end: performance.now() });
      port1.close();
    };
    port2.postMessage(null);
  });
}
