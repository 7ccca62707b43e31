// The outbox: what was saved on this phone and is not on the server yet. Used by pages and by the worker.
'use strict';
self.outbox = (() => {
  const NAME = 'hilum-outbox';
  const MOST_TRIES = 5;
  const PATIENCE = 20 * 1000;
  const PATIENCE_WITH_PHOTO = 120 * 1000;
  let opened = null;

  function open() {
    opened ??= new Promise((resolve, reject) => {
      const request = indexedDB.open(NAME, 1);
      request.onupgradeneeded = () => {
        request.result.createObjectStore('entries', { keyPath: 'seq', autoIncrement: true })
          .createIndex('id', 'id', { unique: true });
        request.result.createObjectStore('facts');
      };
      request.onsuccess = () => {
        request.result.onclose = () => { opened = null; };
        resolve(request.result);
      };
      request.onerror = () => { opened = null; reject(request.error); };
    });
    return opened;
  }

  // Resolves only once the transaction is complete and, where the browser can, on the disk.
  async function inside(mode, work) {
    const db = await open();
    return new Promise((resolve, reject) => {
      const transaction = db.transaction(['entries', 'facts'], mode, { durability: 'strict' });
      const request = work(transaction);
      transaction.oncomplete = () => resolve(request?.result);
      transaction.onabort = () => reject(transaction.error);
    });
  }

  const all = () => inside('readonly', t => t.objectStore('entries').getAll());
  const fact = name => inside('readonly', t => t.objectStore('facts').get(name));
  const note = (name, value) => inside('readwrite', t => t.objectStore('facts').put(value, name));

  // An entry with the same id is replaced, and keeps its place.
  function put(entry) {
    return inside('readwrite', t => {
      const entries = t.objectStore('entries');
      const found = entries.index('id').getKey(entry.id);
      found.onsuccess = () => {
        const { seq, ...rest } = entry;
        entries.put(found.result === undefined ? rest : { ...rest, seq: found.result });
      };
    }).then(changed);
  }
  function remove(id) {
    return inside('readwrite', t => {
      const entries = t.objectStore('entries');
      const found = entries.index('id').getKey(id);
      found.onsuccess = () => { if (found.result !== undefined) entries.delete(found.result); };
    }).then(changed);
  }

  // Other tabs and the worker draw anew.
  const channel = self.BroadcastChannel ? new BroadcastChannel(NAME) : null;
  const watchers = [];
  function changed() {
    channel?.postMessage('changed');
    watchers.forEach(draw => draw());
  }
  function watch(draw) {
    watchers.push(draw);
    if (channel) channel.onmessage = draw;
  }

  /* One entry to the server. "later" is whatever does not prove that the server took it or refused it: no answer,
     a fault, a page in place of our answer, a redirect to somebody's sign-in page. */
  async function send(entry, extra) {
    const body = entry.photo ? new FormData() : new URLSearchParams();
    for (const [name, value] of entry.fields) body.append(name, value);
    if (entry.photo) body.append(entry.photo.name, entry.photo.file, 'photo');
    body.set('key', entry.id);
    if (entry.at) { body.set('at', entry.at); body.set('at_by', 'phone'); }
    for (const [name, value] of extra.seen ?? []) body.append(name, value);
    const headers = { 'hilum-outbox': entry.member };
    if (extra.go) headers['hilum-outbox-go'] = 'yes';
    try {
      const answer = await fetch(entry.action, {
        method: 'POST', body, headers, redirect: 'manual', credentials: 'same-origin', cache: 'no-store',
        signal: AbortSignal.timeout?.(entry.photo ? PATIENCE_WITH_PHOTO : PATIENCE),
      });
      return outcome(entry, answer.status, await answer.json().catch(() => ({})));
    } catch {
      return { kind: 'later' };
    }
  }
  function outcome(entry, status, said) {
    if (status >= 200 && status < 300 && said.saved === entry.id) return { kind: 'saved', to: said.to, said: said.said };
    if (status === 422 && Array.isArray(said.errors)) return { kind: 'refused', errors: said.errors };
    if (status === 401 && said.sign_in) return { kind: 'sign in' };
    if (status === 409 && said.other_member) return { kind: 'other member' };
    if (status === 500) return { kind: 'fault' };
    return { kind: 'later', stays: said.stays };
  }

  /* Sends what waits of this member, in order, one sender at a time. An entry leaves the phone only after the server
     named its id. What the server fails at holds up only what comes after it of the same thing. After a while it needs
     attention and holds up nothing more, but is still tried: an earlier try may have been taken, its answer lost. Gives
     what became of each. */
  const isDue = entry => entry.state === 'waiting' || Boolean(entry.faulty);
  async function round(member, first) {
    const outcomes = new Map();
    const held = new Set();
    for (const entry of await all()) {
      if (entry.member !== member || !isDue(entry) || held.has(entry.action)) continue;
      const came = await send(entry, entry.id === first.id && outcomes.size === 0 ? first : { go: entry.id === first.id && first.go });
      outcomes.set(entry.id, { ...came, entry });
      if (came.kind === 'saved') await remove(entry.id);
      else if (came.kind === 'refused') await put({ ...entry, state: 'attention', faulty: false, errors: came.errors });
      else if (came.kind === 'fault' && !entry.faulty) {
        held.add(entry.action);
        await put(failed(entry));
      } else if (came.kind !== 'fault') break;
    }
    return outcomes;
  }
  function failed(entry) {
    const tries = (entry.tries ?? 0) + 1;
    if (tries < MOST_TRIES) return { ...entry, tries };
    return { ...entry, tries: 0, state: 'attention', faulty: true, errors: [{ field: '', message: words('failed-here') }] };
  }
  // Nobody queues for the lock: a page that the browser has put aside would stand at the head and hold up all others.
  function alone(work) {
    if (!navigator.locks) return work();
    return navigator.locks.request(NAME, { ifAvailable: true }, lock => lock ? work() : null);
  }
  // null where another page, or the worker, is sending now.
  let running = Promise.resolve();
  function flush(member, first = {}) {
    running = running.catch(() => {}).then(() => alone(() => round(member, first)));
    return running;
  }

  return { all, put, remove, fact, note, flush, watch, isDue };
})();
