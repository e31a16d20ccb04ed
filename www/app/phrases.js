// How every room of the page says what it says: {boot} and its like become the
// words of the reader's choice; any other name in braces is filled in by the
// caller.

/** @typedef {'british'|'american'} Dialect */

/** @type {Record<Dialect, Record<string, string>>} */
const DIALECT = {
  british: { boot: 'boot', tyre: 'tyre', litres: 'litres', colour: 'colour', bonnet: 'bonnet', windscreen: 'windscreen', estate: 'estate', saloon: 'saloon', aluminium: 'aluminium' },
  american: { boot: 'trunk', tyre: 'tire', litres: 'liters', colour: 'color', bonnet: 'hood', windscreen: 'windshield', estate: 'wagon', saloon: 'sedan', aluminium: 'aluminum' },
};

/** @type {Dialect} */
let dialect = 'british';

/** @param {Dialect} next */
export function speak(next) {
  dialect = next;
}

/**
 * The two ways to say the words of one room.
 *
 * `say` gives the words for a key, filled in. `sayOf` gives those for a key made
 * of a stem and a word of the document or the engine; where there are none the
 * word itself, so that an unknown one is shown, not lost.
 *
 * @template {Record<string, string>} Words
 * @param {Words} words
 */
export function phrases(words) {
  /** @param {keyof Words & string} key @param {Record<string, string|number>} [values] */
  const say = (key, values = {}) => {
    const local = DIALECT[dialect];
    return /** @type {string} */ (words[key]).replace(/\{(\w+)\}/g, (whole, name) => {
      if (Object.hasOwn(values, name)) return String(values[name]);
      const low = name.toLowerCase();
      const word = local[low];
      if (word === undefined) return whole;
      return name === low ? word : word.charAt(0).toUpperCase() + word.slice(1);
    });
  };
  /** @param {string} stem @param {string|number} word */
  const sayOf = (stem, word) => {
    const key = `${stem}_${word}`;
    return Object.hasOwn(words, key) ? say(key) : String(word).replaceAll('_', ' ');
  };
  return { say, sayOf };
}
