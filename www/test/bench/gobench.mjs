import { spawn } from 'node:child_process';

/**
 * Runs the engine's benchmarks.
 * @param {string[]} packages
 * @param {{wasmExec?: string, filter?: string}} how  with wasmExec: in WebAssembly under node
 * @returns {Promise<Map<string, Map<string, number>>>} by name: every metric by its unit
 */
export async function goBench(packages, { wasmExec, filter = '.' } = {}) {
  const env = { ...process.env };
  const args = ['test', '-run=^$', `-bench=${filter}`, '-benchtime=1s', '-cpu=1'];
  if (wasmExec) {
    Object.assign(env, { GOOS: 'js', GOARCH: 'wasm' });
    args.push('-exec', wasmExec);
  }
  const child = spawn('go', [...args, ...packages], { env, stdio: ['ignore', 'pipe', 'inherit'] });
  let out = '';
  child.stdout.on('data', (data) => (out += data));
  const code = await new Promise((resolve) => child.on('close', resolve));
  if (code !== 0) process.stdout.write(out);
  return parseBench(out);
}

/** @param {string} text */
export function parseBench(text) {
  const found = new Map();
  let pkg = '';
  for (const line of text.split('\n')) {
    if (line.startsWith('pkg:')) pkg = line.slice(4).trim().split('/').at(-1) ?? '';
    const m = /^Benchmark(\S+?)(?:-\d+)?\s+\d+\s+(.*)$/.exec(line);
    if (!m) continue;
    const metrics = new Map();
    for (const [, value, unit] of m[2].matchAll(/([\d.e+]+) (\S+)/g)) metrics.set(unit, Number(value));
    found.set(`${pkg}.${m[1]}`, metrics);
  }
  return found;
}
