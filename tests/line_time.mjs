// What the sums of one line cost in the page's own machine code, without the page; or the curve of a turn; or
// all that is said of weights and of balancing, or at Check; or the bending frequencies of a shaft, three or the first:
//
//   ./dev run node tests/line_time.mjs
//   ./dev run node tests/line_time.mjs turn
//   ./dev run node tests/line_time.mjs weights
//   ./dev run node tests/line_time.mjs check
//   ./dev run node tests/line_time.mjs beam
//   ./dev run node tests/line_time.mjs first
//
// Builds tests/line_time/chain.rs, or turn.rs, weights.rs, check.rs, beam.rs or first.rs beside it, with the page's library and flags (not passed through wasm-opt, which the
// site is) and runs it in batches, half a second to warm up and then a second and a half on the clock. What
// the program would ask of a page is stood in for; the chain asks for nothing of it. Quote the median: a
// shared machine is in the 95th percentile.
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';

const what = { line: ['line_time', 200], turn: ['turn_time', 20], weights: ['weights_time', 20], check: ['check_time', 20], beam: ['beam_time', 200], first: ['first_time', 200] }[process.argv[2] ?? 'line'];
if (!what) throw new Error(`line, turn, weights, check, beam or first: ${process.argv[2]}`);
const [EXAMPLE, CHAINS] = what; // chains a batch, as in those files

const target = process.env.CARGO_TARGET_DIR || 'target';
execFileSync('cargo', ['build', '--quiet', '--locked', '--release', '--target', 'wasm32-unknown-unknown', '--features', 'line_time', '--example', EXAMPLE], { stdio: 'inherit' });
const module = new WebAssembly.Module(fs.readFileSync(path.join(target, `wasm32-unknown-unknown/release/examples/${EXAMPLE}.wasm`)));

const stand_ins = {};
for (const { module: from, name, kind } of WebAssembly.Module.imports(module)) {
  if (kind !== 'function') throw new Error(`a ${kind} is asked for: ${from} ${name}`);
  (stand_ins[from] ??= {})[name] = () => { throw new Error(`the page was asked for: ${name}`); };
}

// A program's main is made to run once: each batch has a program of its own, made outside the clock.
function batch() {
  const { exports } = new WebAssembly.Instance(module, stand_ins);
  const begun = performance.now();
  exports.main(0, 0);
  return performance.now() - begun;
}

function during(milliseconds) {
  const times = [];
  for (let spent = 0; spent < milliseconds; spent += times.at(-1) * CHAINS) times.push(batch() / CHAINS);
  return times.sort((a, b) => a - b);
}

during(500);
const times = during(1500);
const share = (part) => times[Math.min(times.length - 1, Math.ceil(part * times.length) - 1)].toFixed(4);
console.log(`${times.length} batches of ${CHAINS} chains: ${share(0.5)} ms a chain at the median, ${share(0.95)} ms at the 95th percentile, ${times[0].toFixed(4)} ms at best`);
