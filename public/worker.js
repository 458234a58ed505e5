// Keeps one whole build of the page on the device, so that it opens without signal.
//
// The build fills in the next two lines: the digest of everything, and each file with its own digest.
// A debug build leaves them as they are, and a worker with no files takes itself away again, so that
// a developer is never shown yesterday's page.
const VERSION = '';
const FILES = [];

// The scope is in the name because every site of one host shares one store.
const OURS = `shaftwright ${self.registration.scope} `;
const CACHE = OURS + VERSION;
const HOME = new URL('./', self.location).href;
const ADDRESSES = new Set(FILES.map(([path]) => new URL(path, HOME).href));

// All or nothing, straight from the server. The digests refuse files of two builds mixed, as a
// visitor may meet while a host is being updated.
async function fill() {
  const cache = await caches.open(CACHE);
  await cache.addAll(FILES.map(([path, integrity]) => new Request(new URL(path, HOME), { cache: 'reload', integrity })));
}

async function install() {
  try {
    await fill();
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

async function dropCaches(except) {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(OURS) && name !== except).map((name) => caches.delete(name)));
}

async function hasEverything() {
  const cache = await caches.open(CACHE);
  const held = new Set((await cache.keys()).map((request) => request.url));
  return [...ADDRESSES].every((address) => held.has(address));
}

// The browser may have thrown something away; get it again while there is signal.
async function completed() {
  if (await hasEverything()) return true;
  try {
    await fill();
    return true;
  } catch {
    return false;
  }
}

async function fromCache(address, request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(address, { ignoreVary: true })) ?? fetch(request);
}

async function fromNetworkOrHome(request) {
  try {
    return await fetch(request);
  } catch {
    return Response.redirect(HOME); // so that the page's relative addresses hold
  }
}

function answer(event) {
  const { request } = event;
  if (request.method !== 'GET') return;
  const url = new URL(request.url);
  if (url.origin !== self.location.origin) return;
  url.hash = '';
  if (request.mode === 'navigate') {
    url.search = '';
    const home = url.href === HOME || url.href === `${HOME}index.html`;
    event.respondWith(home ? fromCache(HOME, request) : fromNetworkOrHome(request));
  } else if (ADDRESSES.has(url.href)) {
    event.respondWith(fromCache(url.href, request));
  }
}

if (FILES.length > 0) {
  self.addEventListener('install', (event) => event.waitUntil(install()));
  self.addEventListener('activate', (event) => event.waitUntil(dropCaches(CACHE).then(() => self.clients.claim())));
  self.addEventListener('fetch', answer);
  self.addEventListener('message', (event) => {
    // Sent by the page to the waiting worker, once the mechanic has said yes and the job is saved.
    if (event.data === 'take over') self.skipWaiting();
    if (event.data === 'have you everything?') {
      event.waitUntil(completed().then((whole) => event.ports[0].postMessage(whole)));
    }
  });
} else {
  self.addEventListener('install', () => self.skipWaiting());
  self.addEventListener('activate', (event) => event.waitUntil(dropCaches().then(() => self.registration.unregister())));
}
