/**
 * Keeps the page working with the network gone, and brings newer versions in
 * whole, when the reader says so.
 */

/**
 * @typedef {object} OfflineEvents
 * @property {() => void} onReady  everything is kept for the first time: from now on the page opens without a network
 * @property {(apply: () => void) => void} onUpdate  a newer version is kept whole; apply changes over to it and reloads
 */

/**
 * @param {OfflineEvents} events
 * @param {() => Promise<void>} beforeReload  saves what must not be lost
 */
export async function keepOffline({ onReady, onUpdate }, beforeReload) {
  if (!('serviceWorker' in navigator) || location.protocol === 'file:') return;
  const { serviceWorker } = navigator;
  let asked = false;
  serviceWorker.addEventListener('controllerchange', async () => {
    // Another tab may have changed over: this one works on as it is.
    if (!asked) return;
    await beforeReload();
    location.reload();
  });
  try {
    const registration = await serviceWorker.register('sw.js', { updateViaCache: 'none' });
    /** @param {ServiceWorker} waiting */
    const offer = (waiting) =>
      onUpdate(() => {
        asked = true;
        waiting.postMessage('take over');
      });
    /** @type {WeakSet<ServiceWorker>} */
    const followed = new WeakSet();
    const follow = () => {
      const { installing } = registration;
      if (!installing || followed.has(installing)) return;
      followed.add(installing);
      installing.addEventListener('statechange', () => {
        if (installing.state === 'installed' && registration.active) offer(installing);
        else if (installing.state === 'activated' && !asked) onReady();
      });
    };
    if (registration.waiting) offer(registration.waiting);
    follow();
    registration.addEventListener('updatefound', follow);
    // A page left open for days asks again whenever it is looked at.
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'visible') registration.update().catch(() => {});
    });
  } catch {
    // Without a service worker the page works as long as the network does.
  }
}
