/* Run by `make bench`: measures, and prints every value beside its budget. */
import { execFileSync } from 'node:child_process';
import os from 'node:os';
import path from 'node:path';
import { root } from '../browser/machine.mjs';
import { goBench } from './gobench.mjs';
import { pageTimings } from './page.mjs';
import { MOST_BYTES, sizesOf, totalOf } from './sizes.mjs';

process.chdir(root);

/** Budgets of the engine's benchmarks, in wasm: by name, or that of the whole group, the metric and its limit. */
const budgets = {
  'system.Recompute': { unit: 'ns/op', most: 4e6 },
  'system.NewCabin': { unit: 'ns/op', most: 50e6 },
  'system.Band': { unit: 'ns/op', most: 50e6 },
  'system.BandNewCabin': { unit: 'ns/op', most: 80e6 },
  'cavity.Solve': { unit: 'ns/op', most: 50e6 },
  'advise.Designs': { unit: 'designs/s', least: 10 },
};
const MOST_RATIO = 2;

const ms = (/** @type {number} */ ns) => (ns / 1e6).toFixed(3);

/** @param {string} what @param {string} value @param {string} budget @param {boolean|undefined} within */
function line(what, value, budget = '', within = undefined) {
  const verdict = within === undefined ? '' : within ? 'within' : 'OVER';
  console.log(`${what.padEnd(62)} ${value.padStart(14)}  ${budget.padEnd(16)} ${verdict}`.trimEnd());
}

const [load] = os.loadavg();
if (load > 1) console.log(`The machine is busy (load ${load.toFixed(1)}): times are too long by about as much.\n`);
console.log('Download, gzip -9');
for (const { file, gzip } of sizesOf('dist').slice(0, 5)) line(`  ${file}`, `${(gzip / 1000).toFixed(1)} kB`);
const total = totalOf('dist');
line('  everything', `${(total / 1000).toFixed(1)} kB`, `${MOST_BYTES / 1000} kB`, total <= MOST_BYTES);

console.log('\nPage, in Chromium');
for (const { what, value, unit, budget } of await pageTimings()) {
  line(`  ${what}`, value === undefined ? 'none measured' : `${value.toFixed(1)} ${unit}`, `${budget} ${unit}`, value <= budget);
}

console.log('\nEngine: in wasm under node, native, and their ratio');
const packages = execFileSync('go', ['list', './internal/...'], { encoding: 'utf8' })
  .trim()
  .split('\n')
  .filter((pkg) => !pkg.includes('/internal/tools') && path.basename(pkg) !== '');
/** The whole recompute of every box type: the slowest answers for all. */
const TYPES = { prefix: 'system.Types/', most: 4e6 };
const native = await goBench(packages);
const wasm = await goBench(packages, { wasmExec: process.env.WASM_EXEC });
for (const [name, metrics] of wasm) {
  const there = native.get(name);
  for (const [unit, value] of metrics) {
    if (unit === 'B/op' || unit === 'allocs/op' || unit === 'MB/s') continue;
    const other = there?.get(unit);
    const time = unit === 'ns/op';
    const show = (/** @type {number} */ v) => (time ? `${ms(v)} ms` : `${v.toPrecision(4)} ${unit}`);
    const ratio = other ? (time ? value / other : other / value) : undefined;
    const stated = budgets[name] ?? budgets[name.split('/')[0]];
    const limit = stated?.unit === unit ? stated : undefined;
    const budget = limit ? (limit.most ? `${limit.most / 1e6} ms` : `at least ${limit.least}`) : '';
    const within = limit && (limit.most ? value <= limit.most : value >= limit.least);
    line(`  ${name}${time ? '' : ` (${unit})`}`, show(value), budget, within);
    if (other && ratio) line('    native, and wasm over native', show(other), `${ratio.toFixed(2)} (${MOST_RATIO})`, ratio <= MOST_RATIO);
  }
}
const types = [...wasm]
  .filter(([name]) => name.startsWith(TYPES.prefix))
  .map(([name, metrics]) => ({ name: name.slice(TYPES.prefix.length).replaceAll('_', ' '), ns: metrics.get('ns/op') ?? Infinity }))
  .sort((a, b) => b.ns - a.ns);
const [slowest = { name: 'none measured', ns: Infinity }] = types;
line(`  full recompute, slowest of ${types.length}: ${slowest.name}`, `${ms(slowest.ns)} ms`, `${TYPES.most / 1e6} ms`, slowest.ns <= TYPES.most);
