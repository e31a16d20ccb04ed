/**
 * Says, for tests and measurements, whether what is drawn answers the job as
 * it is, and how long each change took from the reader's hand to the screen.
 *
 * The root element's data-state is 'loading' until the first answer, then
 * 'stale' while a newer one is worked out, 'fresh' when it is drawn, and
 * 'failed' when there is none.
 */

/**
 * @typedef {object} Timing
 * @property {() => void} asked  the job has changed: what is drawn is not its answer any more
 * @property {() => void} answered  the newest answer and all its curves are in the page
 * @property {() => void} failed  there is no answer to the job as it is
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
  /** When the input was made that the next answer answers; 0 when none. */
  let since = 0;
  for (const kind of INPUTS) {
    addEventListener(kind, (event) => void (hand = event.timeStamp), { capture: true, passive: true });
  }
  return {
    asked() {
      if (root.dataset.state !== 'loading') root.dataset.state = 'stale';
      since = hand;
    },
    answered() {
      root.dataset.state = 'fresh';
      if (first) performance.mark('bootfloor:answer');
      first = false;
      if (!since) return;
      const start = since;
      since = 0;
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
    },
    failed() {
      root.dataset.state = 'failed';
      since = 0;
    },
  };
}
