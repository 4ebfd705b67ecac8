/**
 * Keeps the app itself on the machine, so that it opens without a network. It
 * answers for the app's own files and for nothing else: no site passes through
 * it. The build puts the list of files and their version before this code.
 */
declare const self: ServiceWorkerGlobalScope;
/** Paths of all files of the app, from where this one lies. */
declare const FILES: readonly string[];
/** Another for every build whose files differ. */
declare const VERSION: string;

const PREFIX = 'downgradient-app-';
const OWN = `${PREFIX}${VERSION}`;
const PAGE = 'index.html';
/** The app, and the app once more with a policy that lets it ask for map tiles. */
const PAGES: readonly string[] = [PAGE, 'with-address.html'];
const KNOWN = new Set(FILES);

self.addEventListener('install', (event) => {
  event.waitUntil(fetchAll());
});

async function fetchAll() {
  const cache = await caches.open(OWN);
  // All of them or none: a version with a file missing is never used.
  await cache.addAll(FILES.map((file) => new Request(file, { cache: 'no-cache' })));
}

self.addEventListener('activate', (event) => {
  event.waitUntil(dropOlder().then(() => self.clients.claim()));
});

/** The version before this one stays: windows still open may ask for parts of it. */
async function dropOlder() {
  const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== OWN);
  await Promise.all(names.slice(0, -1).map((name) => caches.delete(name)));
}

self.addEventListener('message', ({ data }) => {
  if (data === 'take over') void self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const address = new URL(request.url);
  const home = new URL(self.registration.scope);
  if (request.method !== 'GET' || !address.href.startsWith(home.href)) return;
  const path = decodeURI(address.pathname.slice(home.pathname.length)) || PAGE;
  const isKnown = request.mode === 'navigate' ? PAGES.includes(path) : KNOWN.has(path);
  if (isKnown) event.respondWith(own(path, request));
  else if (path.startsWith('assets/')) event.respondWith(olderOrNew(request));
});

async function own(path: string, request: Request): Promise<Response> {
  const cache = await caches.open(OWN);
  return (await cache.match(path)) ?? fetch(request);
}

/** A part of a version that was there before, or of one not taken yet. */
const olderOrNew = async (request: Request): Promise<Response> =>
  (await caches.match(request)) ?? fetch(request);

export {};
