// Makes the built program small and cuts it in two: what the page needs to start, and the rest, which
// follows behind it.
//
//   node public/split.mjs FOLDER BINARYEN     FOLDER: a built site, BINARYEN: the package's folder
//
// One program is compiled; only here, after the optimiser, are its functions shared out. The first
// file keeps memory, data and table; the rest takes them from it and puts its own functions into the
// places of the table that were left for them. Both are named after what is in them.
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

// ---- what goes into which file ---------------------------------------------------------------------

// What is called by way of the table (closures, mostly) goes by its name: into the rest goes all that
// names one of these places.
const rest = [
  'stage', 'mechanics', 'drawing',
  'sheet::(amount|caution|finding|hint|mark|reason|report|source|working)',
  'screen::stages', 'book::awake', 'screen::parts::(card|field|pad|picture|bar::(rail|station)|choice::(choice|segments)|element::(fold|line))',
];
const ofTheRest = new RegExp(`\\bplotters\\w*\\[|\\bshaftwright\\[\\w+\\]::(${rest.join('|')})\\b`);

// The ways from the first file into the rest. The program takes none of them before the rest is here
// (`State::whole_here`). Whatever the first file can reach by plain calls without them is in it, so
// no other call can find the rest missing.
const gates = ['screen::stages::stage_screen', 'screen::parts::bar::rail'];
const gatesEnd = gates.map((gate) => gate.match(/\w+::\w+$/)[0]);
const isGate = (name) => gates.some((gate) => new RegExp(`^shaftwright\\[\\w+\\]::${gate}$`).test(name));

// ---- reading ---------------------------------------------------------------------------------------

const [, , folder, library] = process.argv;
const { default: binaryen } = await import(pathToFileURL(join(library, 'index.js')));
const built = readdirSync(folder).filter((name) => /^shaftwright-.*\.wasm$/.test(name));
if (built.length !== 1) throw new Error(`One program is wanted in ${folder}, found: ${built}`);

// A function must keep the name that says where it belongs: so equal ones are made one only within a
// file, later, and a gate never becomes part of its caller.
const small = join(folder, built[0]);
execFileSync(process.execPath, [join(library, 'bin', 'wasm-opt'), small, '-o', small, '-g',
  ...gatesEnd.map((gate) => `--no-inline=*::${gate}`), '--skip-pass=duplicate-function-elimination',
  '--flatten', '--rereloop', '-Oz', '--converge', '--coalesce-locals-learning', '-Oz'], { stdio: 'inherit' });
const bytes = readFileSync(small);

// Read once for each file: what one loses, the other keeps.
const read = () => {
  const module = binaryen.readBinary(bytes);
  const list = (count, at, about) => Array.from({ length: module[count]() }, (_, i) => about(module[at](i)));
  return {
    module,
    functions: list('getNumFunctions', 'getFunctionByIndex', binaryen.getFunctionInfo),
    globals: list('getNumGlobals', 'getGlobalByIndex', binaryen.getGlobalInfo),
    tables: list('getNumTables', 'getTableByIndex', binaryen.getTableInfo),
    segments: list('getNumElementSegments', 'getElementSegmentByIndex', binaryen.getElementSegmentInfo),
    exports: list('getNumExports', 'getExportByIndex', binaryen.getExportInfo),
  };
};

// Who calls whom, and who uses which global or table, by the text form: names there are written with
// escapes, so they are told apart by order.
function uses({ module, functions }) {
  const own = functions.filter((known) => !known.base).map((known) => known.name);
  const imported = functions.filter((known) => known.base).map((known) => known.name);
  const parts = module.emitText().split(/\n (?=\()/);
  const named = (pattern) => parts.map((part) => part.match(pattern)?.[1]).filter((name) => name !== undefined);
  const word = '(\\$"(?:[^"\\\\]|\\\\.)*"|\\$[^\\s()]+)';
  const bodies = parts.filter((part) => part.startsWith('(func '));
  const names = new Map();
  bodies.forEach((body, i) => names.set(body.match(new RegExp(`^\\(func ${word}`))[1], own[i]));
  named(new RegExp(`^\\(import .*\\(func ${word}`)).forEach((name, i) => names.set(name, imported[i]));
  if (names.size !== functions.length) throw new Error('The text form does not list the functions as expected.');
  const called = new Map();
  bodies.forEach((body, i) => {
    const found = body.matchAll(new RegExp(`\\((?:return_)?(?:call|ref\\.func) ${word}`, 'g'));
    called.set(own[i], new Set([...found].map((match) => names.get(match[1]))));
  });
  imported.forEach((name) => called.set(name, new Set()));
  return called;
}

const { functions, segments, exports, tables, globals, module: whole } = read();
const called = uses({ module: whole, functions });
if (segments.length !== 1) throw new Error('One list of table entries is expected.');
const table = tables.find((known) => known.name === segments[0].table);
const entries = segments[0].data;


// ---- choosing --------------------------------------------------------------------------------------

if (!gates.every((gate) => functions.some((known) => isGate(known.name)))) throw new Error('A gate is missing.');

const first = new Set();
const toFollow = [
  ...exports.filter((known) => known.kind === binaryen.ExternalFunction).map((known) => known.value),
  ...entries.filter((name) => !ofTheRest.test(name)),
];
while (toFollow.length > 0) {
  const name = toFollow.pop();
  if (first.has(name) || isGate(name)) continue;
  first.add(name);
  toFollow.push(...called.get(name));
}
const moved = functions.filter((known) => !known.base && !first.has(known.name));
const lent = functions.filter((known) => !moved.includes(known) && moved.some((user) => called.get(user.name).has(known.name)));

// ---- the two files ---------------------------------------------------------------------------------

const from = binaryen.getExpressionInfo(segments[0].offset).value;
const gone = new Set(moved.map((known) => known.name));
// Behind the table as it was, a place for each gate.
const places = moved.filter((known) => isGate(known.name)).map((known, i) => ({ ...known, at: table.initial + i }));
const shared = globals.filter((known) => known.mutable);
const shortName = (i) => i.toString(36);

function makeRoom(module) {
  const size = table.initial + places.length;
  module.removeElementSegment(segments[0].name);
  module.removeTable(table.name);
  module.addTable(table.name, size, size);
}

function firstFile() {
  const { module } = read();
  makeRoom(module);
  for (const name of gone) module.removeFunction(name);
  for (const { name, params, results, at } of places) {
    const handed = binaryen.expandType(params).map((type, i) => module.local.get(i, type));
    module.addFunction(name, params, results, [],
      module.call_indirect(table.name, module.i32.const(at), handed, params, results));
  }
  // A hole in the list would cost more than a name in it. Called before the rest is here it stops the
  // page, as a hole would: nothing else takes what it takes.
  const strange = Array(9).fill(binaryen.f32);
  module.addFunction('not here yet', binaryen.createType(strange), binaryen.none, [], module.unreachable());
  const kept = entries.map((name) => (gone.has(name) ? 'not here yet' : name));
  module.addActiveElementSegment(table.name, segments[0].name, kept, module.i32.const(from));
  lent.forEach((known, i) => module.addFunctionExport(known.name, shortName(i)));
  shared.forEach((known, i) => module.addGlobalExport(known.name, `g${i}`));
  tables.forEach((known, i) => module.addTableExport(known.name, `t${i}`));
  return module;
}

function restFile() {
  const { module } = read();
  for (const known of exports) module.removeExport(known.name);
  makeRoom(module);
  module.setMemory(1, -1, null, [], false, false, '0');
  module.addMemoryImport('0', 'f', 'memory');
  tables.forEach((known, i) => module.addTableImport(known.name, 'f', `t${i}`));
  for (const known of globals) if (!known.mutable) module.removeGlobal(known.name);
  shared.forEach((known, i) => {
    module.removeGlobal(known.name);
    module.addGlobalImport(known.name, 'f', `g${i}`, known.type, true);
  });
  const names = new Map(lent.map((known, i) => [known.name, shortName(i)]));
  for (const known of functions) {
    if (gone.has(known.name)) continue;
    module.removeFunction(known.name);
    if (names.has(known.name)) module.addFunctionImport(known.name, 'f', names.get(known.name), known.params, known.results);
  }
  const fill = (at, list) => module.addActiveElementSegment(table.name, `from ${at}`, list, module.i32.const(at));
  for (let i = 0; i < entries.length; i += 1) {
    const begun = i;
    while (gone.has(entries[i])) i += 1;
    if (i > begun) fill(from + begun, entries.slice(begun, i));
  }
  fill(table.initial, places.map((known) => known.name));
  return module;
}

function written(module) {
  binaryen.setOptimizeLevel(2);
  binaryen.setShrinkLevel(2);
  binaryen.setDebugInfo(false);
  // Also ends the build where a function calls one that went into the other file and is not lent to it.
  if (!module.validate()) throw new Error('A file is not valid; above stands why.');
  module.optimize();
  module.runPasses(['reorder-functions', 'strip-debug', 'strip-producers', 'strip-target-features']);
  return Buffer.from(module.emitBinary());
}

const files = { bg: written(firstFile()), rest: written(restFile()) };

// ---- writing ---------------------------------------------------------------------------------------

const digest = createHash('sha256').update(files.bg).update(files.rest).digest('hex').slice(0, 16);
const names = { bg: `shaftwright-${digest}_bg.wasm`, rest: `shaftwright-${digest}_rest.wasm` };
rmSync(small);
for (const half of ['bg', 'rest']) writeFileSync(join(folder, names[half]), files[half]);
const page = join(folder, 'index.html');
const html = readFileSync(page, 'utf8').replaceAll(built[0], names.bg)
  .replace(/ data-wasm="([^"]*)_bg\.wasm"/, '$& data-rest="$1_rest.wasm"');
if (!html.includes(names.rest)) throw new Error('The page does not name its program as expected.');
writeFileSync(page, html);
console.log(`   ${first.size} functions to start (${files.bg.length} bytes), ${moved.length} follow (${files.rest.length} bytes)`);
