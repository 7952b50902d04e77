// Keeps the page itself, so that it opens without signal. Answers of the server are never kept
// here: the page keeps jobs in its own database, with their revision, and says how old they are.

const NAME = 'northwall-__STAMP__';
const FILES = __FILES__;

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(NAME).then((c) => c.addAll(FILES)).then(() => self.skipWaiting()));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches.keys()
      .then((names) => Promise.all(names.filter((n) => n.startsWith('northwall-') && n !== NAME).map((n) => caches.delete(n))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== 'GET' || url.origin !== self.location.origin || url.pathname.startsWith('/api/')) return;
  if (event.request.mode === 'navigate') {
    // The newest page where there is signal; the kept one where there is none.
    event.respondWith(fetch(event.request).catch(() => caches.match('/').then((kept) => kept ?? Response.error())));
    return;
  }
  event.respondWith(caches.match(event.request).then((kept) => kept ?? fetch(event.request)));
});
