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
      onClose?.();
      if (this.opener instanceof HTMLElement && this.opener.isConnected) this.opener.focus({ preventScroll: true });
    });
    // A dialog that is not modal leaves Escape to us.
    this.root.addEventListener('keydown', (e) => {
      if (docked && e.key === 'Escape' && !(e.target instanceof HTMLInputElement && e.target.type === 'text')) this.close();
    });
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
      this.root.show();
    } else {
      this.root.showModal();
    }
    this.body.scrollTop = 0;
    this.heading.focus({ preventScroll: true });
  }

  close() {
    this.root.close();
  }

  /** Says something to those who do not see it change. @param {string} words */
  tell(words) {
    this.live.textContent = words;
  }
}
