// Starts the program, brings its second file, and says so when it has fallen. Looks after the worker
// that keeps the page usable without signal, and hands the program its news:
//
//   <html data-whole="ready">,   window event "shaftwright:whole-ready"    the second file is here
//   window event "shaftwright:rest-missing"                                it could not be had
//   window event "shaftwright:get-rest"     from the program: try to have it once more
//   <html data-offline="ready">, window event "shaftwright:offline-ready"  the page now opens without signal
//   <html data-update="ready">,  window event "shaftwright:update-ready"   a newer version lies ready
//   window event "shaftwright:take-update"  from the program: the job is saved, take the newer version now
//
// A version is never changed on our own account: the mechanic may be in the middle of a reading.

const root = document.documentElement;
// The page and all it needs come from the worker's store.
const isKept = () => Boolean(navigator.serviceWorker?.controller);

// ---- the program -----------------------------------------------------------------------------------

const fallen = document.getElementById('fallen');
document.getElementById('fallen-reload').addEventListener('click', () => location.reload());
// The job in the address may be what it stumbles over.
document.getElementById('fallen-book').addEventListener('click', () => {
  location.hash = '#/';
  location.reload();
});

function showFallen() {
  fallen.hidden = false;
  // The program's state can no longer be trusted: nothing more may be typed into it.
  document.getElementById('app').inert = true;
}

// A panic reaches the page as a RuntimeError. Any other error is not the end of the program.
function lookForPanic(error) {
  if (error instanceof WebAssembly.RuntimeError) showFallen();
}
window.addEventListener('error', (event) => lookForPanic(event.error));
window.addEventListener('unhandledrejection', (event) => lookForPanic(event.reason));

async function start() {
  const { program, wasm, rest } = document.querySelector('script[data-wasm]').dataset;
  const here = document.baseURI;
  const { default: init } = await import(new URL(program, here));
  const started = { module_or_path: new URL(wasm, here) };
  // A build that was not cut in two, as for a developer.
  if (!rest) {
    announce('whole');
    await init(started);
    return;
  }
  const address = new URL(rest, here);
  const first = await init(started);
  // Not asked for earlier: on a weak signal the two files would share it, and the page would start
  // later. Nor before the job book has been drawn, unless it is at hand.
  if (!isKept()) await new Promise((drawn) => setTimeout(drawn, 50));
  // Asked for from three sides, fetched once at a time: two would share a weak signal, and both be joined.
  let running;
  const join = (again) => {
    if (!root.dataset.whole) running ??= bringRest(address, again, first).finally(() => { running = undefined; });
    return running;
  };
  window.addEventListener('shaftwright:get-rest', join);
  window.addEventListener('online', join);
  window.addEventListener('shaftwright:offline-ready', join); // the worker has it
  await join();
}

async function bringRest(address, again, first) {
  try {
    await joinRest(address, again ? 'no-cache' : 'default', first);
    announce('whole');
  } catch (error) {
    console.info('The rest of the program did not come:', error);
    window.dispatchEvent(new Event('shaftwright:rest-missing'));
  }
}

// So long without a byte, and the line is taken for dead. A slow one may take all the time it needs.
const STALLED_MS = 20000;

// The rest runs on the first file's memory and table, and calls its functions. It is read piece by
// piece to see whether it still comes; compiling it only then costs milliseconds.
async function joinRest(address, cache, first) {
  const line = new AbortController();
  let stalled;
  const comes = () => {
    clearTimeout(stalled);
    stalled = setTimeout(() => line.abort(), STALLED_MS);
  };
  comes();
  try {
    const answer = await fetch(address, { cache, signal: line.signal });
    if (!answer.ok) throw new Error(`${answer.status} ${answer.url}`);
    comes();
    const reader = answer.body.getReader();
    const pieces = [];
    for (let piece = await reader.read(); !piece.done; piece = await reader.read()) {
      comes();
      pieces.push(piece.value);
    }
    await WebAssembly.instantiate(await new Blob(pieces).arrayBuffer(), { f: first });
  } finally {
    clearTimeout(stalled);
  }
}

const settled = start().catch((error) => {
  console.error(error);
  showFallen();
});

// ---- the worker ------------------------------------------------------------------------------------

function announce(what) {
  if (root.dataset[what] === 'ready') return;
  root.dataset[what] = 'ready';
  window.dispatchEvent(new Event(`shaftwright:${what}-ready`));
}

// Only the worker knows what its cache should hold.
function hasEverything(worker) {
  return new Promise((resolve) => {
    const channel = new MessageChannel();
    channel.port1.onmessage = (event) => resolve(event.data === true);
    worker.postMessage('have you everything?', [channel.port2]);
  });
}

function watchForUpdate(registration) {
  // With no active worker this is the first visit, and what waits is not an update.
  const look = () => {
    if (registration.waiting && registration.active) announce('update');
  };
  const follow = () => registration.installing?.addEventListener('statechange', look);
  registration.addEventListener('updatefound', follow);
  follow(); // it may be on its way already
  look(); // it may have been waiting since an earlier visit
  document.addEventListener('visibilitychange', () => {
    // A page left open on the bench for days is never navigated, so it has to ask. Without signal
    // the question fails, which is no news.
    if (document.visibilityState === 'visible') registration.update().catch(() => {});
  });
}

async function keepForOffline() {
  const workers = navigator.serviceWorker;
  let taking = false;

  window.addEventListener('shaftwright:take-update', async () => {
    const registration = await workers.getRegistration();
    taking = true;
    if (registration?.waiting) registration.waiting.postMessage('take over');
    else location.reload(); // another tab has already taken it
  });
  workers.addEventListener('controllerchange', () => {
    // Also fires on the first visit, and when another tab takes an update: no reason to disturb this one.
    if (!taking) return;
    taking = false;
    location.reload();
  });

  const keep = async () => {
    const registration = await workers.register('./sw.js', { updateViaCache: 'none' });
    watchForUpdate(registration);
    const { active } = await workers.ready;
    if (await hasEverything(active)) announce('offline');
  };
  // A first visit's worker takes all or nothing. Where the rest did not come, most likely it got nothing.
  if (!isKept() && !root.dataset.whole) window.addEventListener('shaftwright:whole-ready', () => keep().catch(sayUnkept));
  await keep();
}

function sayUnkept(error) {
  console.info('Not kept for offline use:', error);
}

// Neither exists on a plain http address in the local network; the program says what that costs.
if (window.isSecureContext && 'serviceWorker' in navigator) {
  // A first visit's worker brings every file once more, and on a weak signal would take that from the start.
  // It waits until the rest has come or could not be had, and no longer.
  (isKept() ? keepForOffline() : settled.then(keepForOffline)).catch(sayUnkept);
}
