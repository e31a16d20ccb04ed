import fs from 'node:fs';
import path from 'node:path';
import zlib from 'node:zlib';

/** What a first visit may download at most, gzipped. */
export const MOST_BYTES = 1_300_000;

/**
 * Every file of the built page with its size as a server with compression would
 * send it.
 * @param {string} dir
 * @returns {{file: string, bytes: number, gzip: number}[]} largest first
 */
export function sizesOf(dir) {
  return fs
    .readdirSync(dir, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => {
      const file = path.join(entry.parentPath ?? entry.path, entry.name);
      const data = fs.readFileSync(file);
      const packed = zlib.gzipSync(data, { level: 9 }).length;
      return { file: path.relative(dir, file), bytes: data.length, gzip: Math.min(packed, data.length) };
    })
    .sort((a, b) => b.gzip - a.gzip);
}

/** @param {string} dir */
export const totalOf = (dir) => sizesOf(dir).reduce((sum, one) => sum + one.gzip, 0);
