/*
 * Stamped by the build: VERSION is the hash of everything served, ENGINE of
 * the engine's sources and its protocol. Page and engine must state the same.
 */
export const VERSION = 'dev';
export const ENGINE = 'dev';
