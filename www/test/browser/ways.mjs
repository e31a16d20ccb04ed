// What the tests of the two short ways in share.
import { open } from './harness.mjs';

/** The heading of the screen that is open. @param {import('playwright-core').Page} page */
export const heading = (page) => page.getByRole('main').getByRole('heading', { level: 1 });

/** Waits until a screen's heading says something. @param {import('playwright-core').Page} page @param {RegExp|string} text */
export const arrived = (page, text) => heading(page).filter({ hasText: text }).waitFor();

/** The steps and how their headings begin. */
export const QUESTIONS = /** @type {const} */ ([['car', 'What car'], ['boot', 'How much of the'], ['music', 'What do you listen'], ['loud', 'How loud'], ['spend', 'What would you spend']]);

/** Opens "Which sub?" at a question. */
export async function question(t, size, step, title) {
  const opened = await open(t, size, { path: `#/which/${step}` });
  await arrived(opened.page, title);
  return opened;
}
