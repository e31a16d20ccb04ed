/**
 * Files in and out: the picker, a drop, a paste; a download. What is inside a
 * file is a stranger's: it is text until the engine has read it.
 */

/**
 * @typedef {import('./engine.js').Engine} Engine
 * @typedef {import('./job.js').Job} Job
 *
 * @typedef {object} Finding
 * @property {string} at  JSON pointer
 * @property {'error'|'warning'|'note'} level
 * @property {string} say
 *
 * @typedef {object} Opened
 * @property {Job} job
 * @property {Finding[]} findings
 * @property {number} [migratedFrom]  the older version of the document it was
 */

/** A job is some ten kilobytes; nothing near this is one. */
const MOST_BYTES = 2_000_000;

/** A file that cannot be opened; its message is a sentence for the reader. */
export class FileError extends Error {
  /** @param {string} say */
  constructor(say) {
    super(say);
    this.name = 'FileError';
  }
}

/**
 * Reads a job out of text from anywhere.
 *
 * @param {Engine} engine
 * @param {string} text
 * @returns {Promise<Opened>} rejects with a FileError, or an EngineError
 */
export async function readJob(engine, text) {
  if (text.length > MOST_BYTES) throw new FileError('This is far too long to be a job.');
  const { reply } = await engine.call('check', { text });
  /** @type {Finding[]} */
  const findings = reply.findings ?? [];
  if (!reply.job) {
    throw new FileError(findings.find((finding) => finding.level === 'error')?.say ?? 'This is not a job of this program.');
  }
  return { job: reply.job, findings, migratedFrom: reply.migrated_from || undefined };
}

/** @param {Blob} file @returns {Promise<string>} rejects with a FileError */
export async function readText(file) {
  const name = file instanceof File ? file.name : 'The file';
  if (file.size > MOST_BYTES) throw new FileError(`${name} is far too big to be a job.`);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(await file.arrayBuffer());
  } catch (error) {
    if (error instanceof TypeError) throw new FileError(`${name} is not text, so it cannot be a job.`);
    throw new FileError(`${name} could not be read.`);
  }
}

/** Lets the reader choose a file. @param {string} accept @returns {Promise<File|undefined>} undefined when they did not */
export function pickFile(accept = '.json,application/json') {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = accept;
    input.addEventListener('change', () => resolve(input.files?.[0]), { once: true });
    input.addEventListener('cancel', () => resolve(undefined), { once: true });
    input.click();
  });
}

/**
 * Takes files dropped on the element and text pasted into the page, except
 * into a field.
 *
 * @param {HTMLElement} element
 * @param {{onText: (text: string) => void, onRefused: (say: string) => void, onOver?: (over: boolean) => void, signal: AbortSignal}} how
 */
export function takeFiles(element, { onText, onRefused, onOver, signal }) {
  /** @param {DataTransfer|null} data */
  const take = async (data) => {
    const file = data?.files[0];
    const text = data?.getData('text/plain');
    try {
      if (file) onText(await readText(file));
      else if (text) onText(text);
    } catch (error) {
      onRefused(error instanceof FileError ? error.message : 'The file could not be read.');
    }
  };
  const options = { signal };
  let depth = 0;
  // What is dragged about within the page, such as selected words, is no file.
  let ours = false;
  document.addEventListener('dragstart', () => { ours = true; }, options);
  document.addEventListener('dragend', () => { ours = false; }, options);
  element.addEventListener(
    'dragenter',
    () => {
      if (depth++ === 0) onOver?.(true);
    },
    options,
  );
  element.addEventListener(
    'dragleave',
    () => {
      if (--depth === 0) onOver?.(false);
    },
    options,
  );
  element.addEventListener('dragover', (event) => event.preventDefault(), options);
  element.addEventListener(
    'drop',
    (event) => {
      event.preventDefault();
      depth = 0;
      onOver?.(false);
      if (!ours) take(event.dataTransfer);
    },
    options,
  );
  document.addEventListener(
    'paste',
    (event) => {
      const field = event.target instanceof HTMLElement && event.target.closest('input, textarea, [contenteditable]');
      if (field || !event.clipboardData) return;
      const looksLikeJob = event.clipboardData.files.length > 0 || event.clipboardData.getData('text/plain').trim().startsWith('{');
      if (!looksLikeJob) return;
      event.preventDefault();
      take(event.clipboardData);
    },
    options,
  );
}

/** A file name made of a title: what every file system takes. @param {string} title @param {string} ending */
export function fileName(title, ending) {
  const plain = title
    .normalize('NFC')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60)
    .replace(/-+$/, '');
  return `${plain || 'job'}.${ending}`;
}

/** Hands the reader a file. @param {string} name @param {BlobPart} content @param {string} type */
export function saveFile(name, content, type) {
  const url = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  // Some engines read the blob only after the click has returned.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

/** @param {Job} job */
export function saveJob(job) {
  saveFile(fileName(job.title, 'json'), `${JSON.stringify(job, null, 2)}\n`, 'application/json');
}
