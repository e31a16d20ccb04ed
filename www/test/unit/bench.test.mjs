import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseBench } from '../bench/gobench.mjs';

test('reads what go test -bench prints', () => {
  const found = parseBench(`goos: linux
pkg: bootfloor/internal/bridge
BenchmarkEvaluate-2   	     100	   2345678 ns/op	  1200 B/op	      12 allocs/op
BenchmarkDesigns      	      10	 1.5e+07 ns/op	        66.5 designs/s
PASS`);
  assert.equal(found.get('bridge.Evaluate').get('ns/op'), 2345678);
  assert.equal(found.get('bridge.Designs').get('designs/s'), 66.5);
  assert.equal(found.get('bridge.Designs').get('ns/op'), 1.5e7);
});
