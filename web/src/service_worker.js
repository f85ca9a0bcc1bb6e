// Keeps the pages, and what was last read of the commissions, for reading without the server.
// Files of a build never change under one name: the kept one is as good. What the server answers
// is asked first and kept, and the kept answer stands in when the server is away.
const kept = 'pages-BUILD';
const files = ['/', /*FILES*/];

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(kept).then((cache) => cache.addAll(files)).then(() => self.skipWaiting()));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(caches.keys()
    .then((names) => Promise.all(names.filter((name) => name.startsWith('pages-') && name !== kept).map((name) => caches.delete(name))))
    .then(() => self.clients.claim()));
});

async function askedFirst(request, key) {
  try {
    const answer = await fetch(request);
    if (answer.ok) (await caches.open(kept)).put(key, answer.clone());
    return answer;
  } catch (error) {
    const known = await caches.match(key);
    if (known) return known;
    throw error;
  }
}

self.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== 'GET' || url.origin !== location.origin || url.pathname === '/api/events') return;
  if (url.pathname.startsWith('/assets/')) {
    event.respondWith(caches.match(event.request).then((known) => known ?? fetch(event.request)));
  } else if (event.request.mode === 'navigate' && !url.pathname.startsWith('/api/')) {
    event.respondWith(askedFirst(event.request, '/'));
  } else if (url.pathname.startsWith('/api/')) {
    event.respondWith(askedFirst(event.request, event.request));
  }
});
