// Keeps the bench's shell on the tablet, so that it opens at once and without the network. BUILD and SHELL stand above.

const CACHE = `strawline-bench-${BUILD}`;

self.addEventListener("install", (event) => {
  event.waitUntil(keepAll().then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(dropOthers().then(() => self.clients.claim()));
});

self.addEventListener("fetch", (event) => {
  const address = new URL(event.request.url);
  if (event.request.method !== "GET" || address.origin !== location.origin) return;
  if (event.request.mode === "navigate" ? address.pathname === "/bench" && !address.search : SHELL.includes(address.pathname)) {
    event.respondWith(fromShell(event.request, address.pathname));
  }
});

/** All or nothing: a shell with one part missing would open to a blank page in a net loft without network. */
async function keepAll() {
  const cache = await caches.open(CACHE);
  const answers = await Promise.all(SHELL.map((address) => fetch(address, { credentials: "same-origin" })));
  for (const [place, answer] of answers.entries()) {
    if (!answer.ok || answer.redirected) throw new Error(`${SHELL[place]} answered ${answer.status}`);
  }
  await Promise.all(answers.map((answer, place) => cache.put(SHELL[place], answer)));
}

async function fromShell(request, path) {
  const kept = await caches.match(path, { cacheName: CACHE });
  return kept ?? fetch(request);
}

async function dropOthers() {
  const names = (await caches.keys()).filter((name) => name.startsWith("strawline-bench-") && name !== CACHE);
  await Promise.all(names.map((name) => caches.delete(name)));
}
