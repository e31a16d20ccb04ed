// A leaf laid over the page: a native dialog with a title and a way out. A
// docked one takes the place of the sheet and leaves the car and its curves
// live; a wide one lies over everything until it is closed.

import { el, freshId } from '../dom.js';
import { say } from './words.js';

export class Leaf {
  /**
   * @param {string} title
   * @param {{docked?: boolean, onClose?: () => void}} [how]
   */
  constructor(title, { docked = false, onClose } = {}) {
    this.docked = docked;
    const id = freshId('leaf');
    this.heading = el('h2', { id, tabindex: -1 }, title);
    this.body = el('div', { class: 'leaf-body' });
    this.extras = el('span', { class: 'leaf-extras' });
    this.live = el('p', { class: 'visually-hidden', 'aria-live': 'polite' });
    this.root = el('dialog', { class: docked ? 'leaf docked' : 'leaf', 'aria-labelledby': id },
      el('div', { class: 'leaf-head' }, this.heading, this.extras, el('button', { type: 'button', class: 'quiet', 'aria-label': say('close_named', { title }), onclick: () => this.close() }, say('close'))),
      this.body, this.live);
    /** @type {Element|null} */
    this.opener = null;
    this.root.addEventListener('close', () => {
      document.documentElement.classList.remove('leaf-docked');
      document.removeEventListener('keydown', this.onKey);
      onClose?.();
      if (this.opener instanceof HTMLElement && this.opener.isConnected) this.opener.focus({ preventScroll: true });
    });
    // A dialog that is not modal leaves Escape to us, wherever the reader is on
    // the page; what else Escape means comes first.
    this.onKey = (/** @type {KeyboardEvent} */ e) => {
      if (e.key !== 'Escape' || e.defaultPrevented || document.querySelector('dialog:modal')) return;
      if (e.target instanceof Element && e.target.closest('.top')) return;
      if (e.target instanceof HTMLInputElement && e.target.type === 'text' && !this.root.contains(e.target)) return;
      this.close();
    };
    document.body.append(this.root);
  }

  get open() {
    return this.root.open;
  }

  show() {
    if (this.open) {
      this.heading.focus({ preventScroll: true });
      return;
    }
    this.opener = document.activeElement;
    if (this.docked) {
      for (const other of document.querySelectorAll('dialog.leaf.docked[open]')) /** @type {HTMLDialogElement} */ (other).close();
      document.documentElement.classList.add('leaf-docked');
      document.addEventListener('keydown', this.onKey);
      this.root.show();
      // Where it lies below, the drawing stays in sight above it.
      if (matchMedia('(max-width: 1099px)').matches) document.querySelector('main .board > section:not([hidden])')?.scrollIntoView({ block: 'start' });
    } else {
      this.root.showModal();
    }
    this.body.scrollTop = 0;
    this.heading.focus({ preventScroll: true });
  }

  close() {
    this.root.close();
  }

  /** Closes every leaf: the reader has left the page that they belong to. */
  static closeAll() {
    for (const leaf of document.querySelectorAll('dialog.leaf[open]')) /** @type {HTMLDialogElement} */ (leaf).close();
  }

  /** Says something to those who do not see it change. @param {string} words */
  tell(words) {
    this.live.textContent = words;
  }
}
