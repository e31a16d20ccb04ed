// The line on top: what job this is, undo and redo, files, and how the reader
// likes the page.

import { el, setAttr, setText } from '../dom.js';
import { say } from '../words.js';

/** @typedef {import('./model.js').Model} Model */
/** @typedef {import('./prefs.js').Prefs} Prefs */

/**
 * @typedef {object} HeaderActions
 * @property {() => void} open
 * @property {() => void} save
 * @property {() => void} demo
 * @property {(prefs: Prefs) => void} prefer
 */

export class HeaderView {
  /**
   * @param {import('../store.js').Store} store
   * @param {Prefs} prefs
   * @param {HeaderActions} actions
   */
  constructor(store, prefs, actions) {
    this.store = store;
    this.name = el('input', { type: 'text', id: 'job-name', maxlength: 200, autocomplete: 'off', onchange: () => store.set('/title', this.name.value, { label: say('title') }) });
    this.title = el('input', { type: 'text', class: 'job-title', 'aria-label': say('title'), maxlength: 200, autocomplete: 'off', spellcheck: 'false', onchange: () => store.set('/title', this.title.value, { label: say('title') }) });
    this.undo = el('button', { type: 'button', class: 'quiet', onclick: () => store.undo() }, say('undo'));
    this.redo = el('button', { type: 'button', class: 'quiet', onclick: () => store.redo() }, say('redo'));
    const item = (/** @type {string} */ text, /** @type {() => void} */ act) => el('button', { type: 'button', onclick: (/** @type {Event} */ e) => { /** @type {HTMLElement} */ (e.currentTarget).closest('details')?.removeAttribute('open'); act(); } }, text);
    /**
     * @template {keyof Prefs} K
     * @param {K} key @param {string} legend @param {[Prefs[K], string][]} choices
     */
    const choice = (key, legend, choices) => el('fieldset', { class: 'field one-of' }, el('legend', {}, legend), el('div', { class: 'segments' },
      ...choices.map(([value, label]) => el('label', { class: 'segment' }, el('input', { type: 'radio', name: `pref-${key}`, checked: prefs[key] === value, onchange: () => actions.prefer({ ...prefs, [key]: value }) }), el('span', {}, label)))));
    /** What can be done with the job; the hand-over adds to it. */
    this.jobMenu = el('div', { class: 'menu-body' },
      el('div', { class: 'field text job-name' }, el('label', { for: 'job-name' }, say('title')), el('span', { class: 'entry' }, this.name)),
      item(say('open_file'), actions.open), item(say('save_file'), actions.save), item(say('new_job'), actions.demo));
    this.menus = [
      el('details', { class: 'menu' }, el('summary', {}, say('menu_job')), this.jobMenu),
      el('details', { class: 'menu' }, el('summary', {}, say('menu_view')), el('div', { class: 'menu-body' },
        choice('units', say('units'), [['metric', say('metric')], ['imperial', say('imperial')]]),
        choice('theme', say('theme'), [['auto', say('theme_auto')], ['light', say('theme_light')], ['dark', say('theme_dark')], ['sun', say('theme_sun')]]),
        choice('dialect', say('dialect'), [['british', say('british')], ['american', say('american')]]))),
    ];
    this.root = el('header', { class: 'top' },
      el('span', { class: 'product' }, say('product')), this.title,
      el('div', { class: 'actions' }, this.undo, this.redo, ...this.menus));
    document.addEventListener('pointerdown', (e) => {
      for (const menu of this.menus) if (!menu.contains(/** @type {Node} */ (e.target))) menu.open = false;
    });
    this.root.addEventListener('keydown', (e) => {
      const menu = e.key === 'Escape' ? this.menus.find((m) => m.open) : undefined;
      if (!menu) return;
      menu.open = false;
      menu.querySelector('summary')?.focus();
    });
  }

  /** @param {Model} model */
  update(model) {
    for (const input of [this.title, this.name]) if (document.activeElement !== input) input.value = model.job.title;
    for (const [button, can, word, label] of /** @type {const} */ ([
      [this.undo, this.store.canUndo, say('undo'), this.store.undoLabel], [this.redo, this.store.canRedo, say('redo'), this.store.redoLabel],
    ])) {
      setAttr(button, 'disabled', !can);
      setAttr(button, 'title', can && label ? `${word}: ${label}` : null);
      setText(button, word);
    }
  }
}
