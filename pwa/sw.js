/*
 * The shell is kept whole under one version and answered from the phone first; data of the service comes
 * from the network and, without signal, from the last answer kept. A new version waits until the person
 * says so. Nothing but GET is ever kept.
 */
const VERSION = 'shell-28f2d029a24bc340';
const SHELL = [
  'asking.js',
  'controller.js',
  'icons/icon-192.png',
  'icons/icon-512.png',
  'icons/icon-maskable-512.png',
  'icons/icon.svg',
  'index.html',
  'logic/access.js',
  'logic/bill.js',
  'logic/catalogue.js',
  'logic/contradictions.js',
  'logic/draft.js',
  'logic/fields.js',
  'logic/fit.js',
  'logic/formula.js',
  'logic/holding.js',
  'logic/measure.js',
  'logic/mends.js',
  'logic/outbox.js',
  'logic/outline.js',
  'logic/plan.js',
  'logic/reading.js',
  'logic/request.js',
  'logic/scribing.js',
  'logic/space.js',
  'logic/stand.js',
  'logic/trial.js',
  'logic/verdict.js',
  'logic/view.js',
  'main.js',
  'manifest.webmanifest',
  'ports/api.js',
  'ports/share.js',
  'ports/storage.js',
  'present.js',
  'styles/base.css',
  'styles/field.css',
  'styles/frame.css',
  'styles/piece.css',
  'styles/price.css',
  'styles/print.css',
  'ui/bars.js',
  'ui/choices.js',
  'ui/customer.js',
  'ui/dom.js',
  'ui/field.js',
  'ui/findings.js',
  'ui/jobs.js',
  'ui/keys.js',
  'ui/mends.js',
  'ui/paper.js',
  'ui/piece.js',
  'ui/price.js',
  'ui/signature.js',
  'ui/sketch.js',
  'ui/space.js',
  'ui/verdict.js',
  'ui/walls.js',
  'verbs.js',
];
const PREFIX = 'yardwright-';
const SHELL_CACHE = PREFIX + VERSION;
const DATA_CACHE = `${PREFIX}data-1`;
const PATIENCE_MS = 4000;
// One address has one answer here; what the header Vary says of other clients does not matter.
const KEPT = { ignoreVary: true };

self.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(SHELL_CACHE)
      .then((cache) => cache.addAll(['./', ...SHELL].map((path) => new Request(path, { cache: 'reload' })))),
  );
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    (async () => {
      const old = (await caches.keys()).filter(
        (name) => name.startsWith(PREFIX) && name !== SHELL_CACHE && name !== DATA_CACHE,
      );
      await Promise.all(old.map((name) => caches.delete(name)));
      await self.clients.claim();
    })(),
  );
});

self.addEventListener('message', (event) => {
  if (event.data === 'take over') self.skipWaiting();
});

async function fromNetworkThenKept(request) {
  const cache = await caches.open(DATA_CACHE);
  try {
    const answer = await fetch(request, { signal: AbortSignal.timeout(PATIENCE_MS) });
    if (answer.ok) await cache.put(request, answer.clone());
    return answer;
  } catch (error) {
    const kept = await cache.match(request, KEPT);
    if (kept) return kept;
    throw error;
  }
}

async function fromShell(request) {
  const cache = await caches.open(SHELL_CACHE);
  return (await cache.match(request, { ...KEPT, ignoreSearch: true })) ?? fetch(request);
}

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  const base = new URL('./', self.location.href).pathname;
  if (url.pathname.startsWith(`${base}v1/`)) event.respondWith(fromNetworkThenKept(request));
  else if (request.mode === 'navigate' && url.pathname === base) event.respondWith(fromShell(new Request('./')));
  else event.respondWith(fromShell(request));
});
