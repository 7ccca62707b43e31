// The worker: keeps this member's open pages for use without signal, and sends the outbox where the browser wakes it.
// self.BUILD = { name, files } stands before this text.
'use strict';
const FIXED = `hilum-fixed-${BUILD.name}`;
const PAGES = `hilum-pages-${BUILD.name}-`;
const WAIT = 3000;
const PATIENT = 20 * 1000;
// Addresses that are kept as they were last seen; everything about other members stays out.
const KEPT = /^\/($|looks$|outbox$|phone$|bags\/[^/]+(\/(plant|close))?$|trials\/[^/]+(\/tally)?$|trays(\/[^/]+(\/outcomes)?)?$|plantings\/[^/]+$)/;

self.addEventListener('install', event => {
  self.skipWaiting();
  event.waitUntil(caches.open(FIXED).then(cache => cache.addAll(BUILD.files)));
});
self.addEventListener('activate', event => event.waitUntil((async () => {
  for (const name of await caches.keys()) if (name !== FIXED && !name.startsWith(PAGES)) await caches.delete(name);
  await self.clients.claim();
})()));

self.addEventListener('fetch', event => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== location.origin) return;
  if (request.method === 'POST' && url.pathname === '/sign-out') event.waitUntil(forgetPages());
  if (request.method === 'POST' && request.mode === 'navigate') event.respondWith(posted(request));
  if (request.method !== 'GET') return;
  if (url.pathname.startsWith('/static/')) event.respondWith(caches.match(request).then(kept => kept ?? fetch(request)));
  else if (request.mode === 'navigate') event.respondWith(page(event, url));
});
self.addEventListener('message', event => {
  if (event.data.answered) answered = Date.now();
  if (event.data.keep) event.waitUntil(keepOpenThings());
  if (event.data.renew) event.waitUntil(renew(event.data.renew));
});
self.addEventListener('sync', event => event.waitUntil(pagesFirst().then(sendAll)));

/* A save that was answered just now: the page that tells of it is worth a longer wait, since what was kept does not know
   of it and the message comes only once. */
const JUST_NOW = 10 * 1000;
let answered = -JUST_NOW;
async function posted(request) {
  if (request.isHistoryNavigation) return formAgain(request);
  try {
    const answer = await fetch(request);
    answered = Date.now();
    return answer;
  } catch {
    return notSent(request);
  }
}

/* The way back to the answer of a save asks the browser's own memory only, which does not hold it. Nothing is sent again:
   the form is fetched anew, or where that address has none the page it stood on, or what is kept of them, and app.js
   puts back what was typed. */
async function formAgain({ url, referrer }) {
  const addresses = [url, referrer].filter(Boolean);
  for (const address of addresses) {
    const answer = await fetch(address).catch(() => null);
    // a navigation takes no answer that was redirected
    if (answer?.ok) return new Response(answer.body, { headers: answer.headers });
  }
  for (const address of addresses) {
    const { pathname, search } = new URL(address);
    const kept = await keptPage(pathname + search);
    if (kept) return kept;
  }
  return noSignal();
}

// The network first; what was kept when it fails or takes long.
async function page(event, url) {
  const path = url.pathname + url.search;
  const live = fetch(event.request);
  event.waitUntil(live.then(answer => keep(path, answer.clone())).catch(() => {}));
  const kept = await keptPage(path);
  if (!kept) return Promise.race([live.catch(() => noSignal()), new Promise(done => setTimeout(() => done(noSignal()), PATIENT))]);
  const steady = live.then(answer => [502, 503, 504].includes(answer.status) ? kept : answer, () => kept);
  const wait = Math.abs(Date.now() - answered) < JUST_NOW ? PATIENT : WAIT;
  return Promise.race([steady, new Promise(done => setTimeout(done, wait, kept))]);
}
async function keptPage(path) {
  for (const name of await caches.keys()) {
    const found = name.startsWith(PAGES) && await (await caches.open(name)).match(path);
    if (found) return found;
  }
  return null;
}

async function keep(path, answer, stamp = 'seen') {
  const isPage = answer.ok && !answer.redirected && (answer.headers.get('content-type') ?? '').startsWith('text/html');
  if (!isPage || !KEPT.test(path.split('?')[0])) return;
  const text = await answer.text();
  const member = /<html[^>]* data-member="([^"]+)"/.exec(text)?.[1];
  if (!member) return;
  await forgetPages(PAGES + member);
  // the message of a save is for once: keep the page without it
  if (text.includes('id="said"')) { await fetchToKeep(path, stamp); return; }
  const headers = new Headers(answer.headers);
  headers.delete('content-encoding');
  headers.delete('content-length');
  headers.set('hilum-stamp', stamp);
  const cache = await caches.open(PAGES + member);
  await cache.put(path, new Response(text.replace(/ data-now="(\d+)"/, ' data-kept="$1"'), { headers }));
}
async function fetchToKeep(path, stamp) {
  const answer = await fetch(path, { headers: { 'hilum-keep': 'yes' }, redirect: 'error', cache: 'no-store' });
  if (answer.ok) await keep(path, answer, stamp);
}
async function forgetPages(but) {
  for (const name of await caches.keys()) if (name.startsWith('hilum-pages-') && name !== but) await caches.delete(name);
}

/* Fetches ahead what this member has open, one after the other, where it is not kept as it now stands; drops what is
   open no more. */
let keeping = Promise.resolve();
function keepOpenThings() {
  keeping = keeping.then(fetchAhead).catch(() => {});
  return keeping;
}
async function fetchAhead() {
  const answer = await fetch('/offline.json', { headers: { 'hilum-keep': 'yes' }, redirect: 'error', cache: 'no-store' });
  const { member, pages } = await answer.json();
  await forgetPages(PAGES + member);
  const cache = await caches.open(PAGES + member);
  for (const request of await cache.keys()) {
    const { pathname, search } = new URL(request.url);
    if (!pages.some(({ path }) => path === pathname + search)) await cache.delete(request);
  }
  for (const { path, stamp } of pages) {
    const kept = await cache.match(path);
    if (kept?.headers.get('hilum-stamp') !== stamp) await fetchToKeep(path, stamp);
  }
}
async function renew(paths) {
  for (const path of paths) await fetchToKeep(path).catch(() => {});
}

// A page that is looked at sends by itself, and then shows what became of it.
const PAGES_FIRST = 10 * 1000;
async function pagesFirst() {
  const pages = await self.clients.matchAll({ type: 'window' });
  if (pages.some(page => page.visibilityState === 'visible')) await new Promise(done => setTimeout(done, PAGES_FIRST));
}
// Each member's entries go only under that member's session: the server says whose it is.
async function sendAll() {
  const members = new Set((await outbox.all()).filter(outbox.isDue).map(e => e.member));
  let later = false;
  for (const member of members) {
    const outcomes = await outbox.flush(member);
    later ||= !outcomes || [...outcomes.values()].some(o => o.kind === 'later' || o.kind === 'fault');
  }
  if (later) throw new Error('not sent yet');
}

const noSignal = () => told(words('no-signal'), words('not-kept'), '/', words('due-now'));
// app.js puts what was typed back into the form of that page.
function notSent(request) {
  const from = request.referrer.startsWith(location.origin) ? new URL(request.referrer).pathname + new URL(request.referrer).search : '/';
  return told(words('not-saved'), words('still-typed'), from, words('back-to-typed'));
}
const safe = text => text.replace(/[&"<>]/g, sign => `&#${sign.charCodeAt(0)};`);
function told(title, text, to, button) {
  const page = `<!doctype html><html lang="${words('locale')}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title><link rel="stylesheet" href="${BUILD.files[0]}"></head><body><main id="main"><h1>${title}</h1>
<p>${text}</p>
<p class="actions"><a class="button main" href="${safe(to)}">${button}</a> <a class="button" href="/outbox">${words('what-waits')}</a></p></main></body></html>`;
  return new Response(page, { status: 503, headers: { 'content-type': 'text/html; charset=utf-8' } });
}
