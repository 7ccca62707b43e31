// What waits on this phone, said on every page and listed on /outbox; when it is sent; the worker; signing out.
'use strict';
(() => {
  const { member, live } = outboxForms;
  if (!member) return;
  const root = document.documentElement;
  const id = name => document.getElementById(name);
  const make = (tag, text, attributes = {}) => Object.assign(document.createElement(tag), { textContent: text }, attributes);
  const format = new Intl.DateTimeFormat(words('locale'), {
    weekday: 'short', day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit', timeZone: root.dataset.zone,
  });
  // in German as pages say it: Fr 27. Nov 11:01
  const moment = ms => {
    if (!format.resolvedOptions().locale.startsWith('de')) return format.format(ms);
    const part = Object.fromEntries(format.formatToParts(ms).map(({ type, value }) => [type, value.replace('.', '')]));
    return `${part.weekday} ${part.day}. ${part.month} ${part.hour}:${part.minute}`;
  };

  let signIn = false;
  // what the server says has to be mended before it takes anything
  let stays = '';
  let waiting = 0;
  let due = 0;
  let mine = 0;

  async function draw() {
    const entries = await outbox.all().catch(() => []);
    const ours = entries.filter(e => e.member === member);
    waiting = ours.filter(e => e.state === 'waiting').length;
    due = ours.filter(outbox.isDue).length;
    mine = ours.length;
    // what the server has just drawn again is told by the errors beside its fields
    const untold = ours.filter(e => !outboxForms.isDrawn(e));
    line(untold.filter(e => e.state !== 'waiting').length, entries.length - ours.length);
    marks(ours);
    list(ours, entries.length - ours.length);
    here(untold);
  }
  // What this page does not know of yet.
  function here(ours) {
    document.querySelectorAll('.waits-here').forEach(line => line.remove());
    const own = ours.filter(e => e.from === location.pathname + location.search);
    const form = document.querySelector('form[data-outbox]');
    if (!own.length || !form || location.hash.startsWith('#edit=')) return;
    form.before(make('p', words('not-in-numbers', { text: own.map(e => e.words).join('; ') }), { className: 'kept waits-here' }));
  }
  function line(attention, others) {
    const parts = [];
    if (waiting) parts.push(signIn ? counted('sign-in-to-send', waiting) : counted('waiting', waiting));
    if (attention) parts.push(counted('attention-count', attention));
    if (others) parts.push(counted('of-another', others));
    const text = parts.join(', ');
    if (id('outbox').textContent === text) return;
    id('outbox').replaceChildren(...text ? [make('a', text, { href: signIn && waiting ? '/sign-in' : '/outbox' })] : []);
  }
  // On lists, beside each thing that has something waiting.
  function marks(ours) {
    document.querySelectorAll('.due .waits').forEach(sign => sign.remove());
    for (const from of new Set(ours.map(e => e.from))) {
      document.querySelectorAll(`.due a.button[href="${CSS.escape(from)}"], .due a.button[href="${from}"]`).forEach(link => {
        link.closest('li').querySelector('p')?.append(' ', make('span', words('saved-sign'), { className: 'sign waits' }));
      });
    }
  }

  function list(ours, others) {
    const place = id('waiting');
    if (!place) return;
    const items = ours.map(item);
    if (!ours.length) items.push(make('p', words('all-sent')));
    if (others) items.push(make('p', words('sent-by-another', { text: counted('of-another', others) })));
    place.replaceChildren(...items);
    if (stays && waiting) place.prepend(make('p', stays, { className: 'error', role: 'status' }));
    id('send-now').hidden = !waiting;
  }
  function item(entry) {
    const box = make('section', '', { className: 'waiting' });
    const attention = entry.state === 'attention';
    const heading = make('h2', entry.labelled ? '' : entry.mark);
    if (entry.labelled) heading.append(make('span', entry.mark, { className: 'mark' }));
    box.append(heading, make('p', `${entry.words}.`), make('p', `${words('saved-at', { time: moment(entry.made) })} ${attention ? '' : words('to-be-sent')}`, { className: 'quiet' }));
    if (attention) box.append(make('p', words('needs-attention', { text: entry.errors.map(e => e.message).join(' ') }), { className: 'error' }));
    const actions = make('p', '', { className: 'actions' });
    if (attention) {
      actions.append(make('a', words('edit'), { className: 'button', href: `${entry.from}#edit=${entry.id}` }), ' ',
        button(words('send-again'), () => outbox.put({ ...entry, state: 'waiting', faulty: false, errors: [] }).then(() => flush())));
    }
    actions.append(' ', button(words('throw-away'), () => ask(words('throw-away-this', { text: entry.words, name: entry.mark }),
      [[words('throw-it-away'), () => outbox.remove(entry.id)], [words('keep-it'), () => {}]])));
    box.append(actions);
    return box;
  }
  function button(text, act) {
    const made = make('button', text, { type: 'button', className: 'plain' });
    made.addEventListener('click', act);
    return made;
  }

  function ask(question, choices) {
    const dialog = document.createElement('dialog');
    const heading = make('p', question, { id: 'question' });
    const actions = make('p', '', { className: 'actions' });
    dialog.setAttribute('aria-labelledby', 'question');
    for (const [text, act] of choices) actions.append(button(text, () => { dialog.close(); act(); }));
    dialog.append(heading, actions);
    dialog.addEventListener('close', () => dialog.remove());
    document.body.append(dialog);
    dialog.showModal();
  }

  /* Sending: after a save, when a page opens or is looked at again, when the phone says it has signal, and every half
     minute while something waits, less often while it fails. */
  let fails = 0;
  let nextTry = 0;
  const ATTEMPTS = 8;
  async function flush(first, attempt = 1) {
    const outcomes = await outbox.flush(member, first);
    if (!outcomes && first && attempt < ATTEMPTS) {
      await new Promise(done => setTimeout(done, 250));
      return flush(first, attempt + 1);
    }
    if (!outcomes) {
      nextTry = 0;
      await draw();
      return new Map();
    }
    const kinds = [...outcomes.values()].map(o => o.kind);
    if (kinds.includes('saved') || kinds.includes('refused')) { signIn = false; fails = 0; }
    if (kinds.includes('sign in')) signIn = true;
    if (kinds.length) stays = [...outcomes.values()].find(o => o.stays)?.stays ?? '';
    if (kinds.includes('later') || kinds.includes('fault')) fails += 1;
    nextTry = performance.now() + Math.min(30 * 2 ** Math.max(fails - 1, 0), 300) * 1000;
    outboxForms.sent(outcomes);
    const renewed = [...outcomes.values()].filter(o => o.kind === 'saved').map(o => o.entry.from);
    if (renewed.length) worker?.postMessage({ renew: ['/', ...new Set(renewed)] });
    await draw();
    return outcomes;
  }
  outboxForms.moment = moment;
  outboxForms.flush = first => flush(first).catch(() => new Map());
  const trySoon = () => { outboxForms.flush(); };
  setInterval(() => { if (due && performance.now() >= nextTry) trySoon(); }, 5000);
  addEventListener('online', trySoon);
  addEventListener('pageshow', event => { if (event.persisted) trySoon(); });
  document.addEventListener('visibilitychange', () => { if (document.visibilityState === 'visible') trySoon(); });
  outbox.watch(() => {
    draw();
    if (mine) registration?.sync?.register('outbox').catch(() => {});
  });

  /* Signing out with something waiting asks first. */
  const leaving = new WeakSet();
  addEventListener('submit', event => {
    const form = event.target;
    if (!form.hasAttribute('data-forget') || !mine || leaving.has(form)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    const leave = () => { leaving.add(form); form.requestSubmit(); };
    const drop = async () => {
      for (const entry of await outbox.all()) if (entry.member === member) await outbox.remove(entry.id);
      leave();
    };
    ask(counted('waits', mine), [
      [words('send-first'), async () => { await outboxForms.flush(); if (mine) location.assign('/outbox'); else leave(); }],
      [words('keep-and-leave'), leave],
      [words('drop-and-leave'), () => ask(counted('drop-for-good', mine), [[words('throw-away'), drop], [words('stay'), () => {}]])],
      [words('stay'), () => {}],
    ]);
  }, true);

  /* The worker, where the browser allows one. */
  let registration = null;
  let worker = null;
  async function startWorker() {
    const allowed = isSecureContext && 'serviceWorker' in navigator;
    if (!allowed || root.dataset.offline === 'no' && !await navigator.serviceWorker.getRegistration('/')) return;
    await navigator.serviceWorker.register('/sw.js', { updateViaCache: 'none' });
    registration = await navigator.serviceWorker.ready;
    worker = registration.active;
    if (live) worker.postMessage({ keep: true });
    navigator.serviceWorker.addEventListener('controllerchange', () => {
      worker = navigator.serviceWorker.controller ?? worker;
      if (live) worker.postMessage({ keep: true });
    });
  }

  function sayKept() {
    const kept = root.dataset.kept;
    if (!kept || id('waiting') || id('phone-facts')) return;
    id('main').prepend(make('p', words('as-it-was', { time: moment(Number(kept) * 1000) }), { className: 'kept' }));
  }

  // Each is said as soon as it is known: a busy phone takes its time for some.
  async function tellOfPhone() {
    if (!id('phone-facts')) return;
    const lasting = Promise.resolve(navigator.storage?.persisted?.() ?? false).catch(() => false);
    const facts = {
      secure: isSecureContext,
      pages: Promise.race([startedWorker.then(() => Boolean(registration), () => false), new Promise(done => setTimeout(done, 4000, false))]),
      counts: outbox.note('tried', 1).then(() => true, () => false),
      lasting,
    };
    for (const place of document.querySelectorAll('[data-fact]')) {
      Promise.resolve(facts[place.dataset.fact]).then(good => {
        place.replaceChildren(make('strong', words(good ? 'yes' : 'no')), good ? '' : `. ${place.dataset.else}`);
      });
    }
    id('ask-lasting').hidden = await lasting || !navigator.storage?.persist;
  }

  let startedWorker = Promise.resolve();
  function start() {
    sayKept();
    draw();
    trySoon();
    id('send-now')?.addEventListener('click', trySoon);
    id('ask-lasting')?.addEventListener('click', async () => { await navigator.storage.persist(); tellOfPhone(); });
    const begin = () => { startedWorker = startWorker(); startedWorker.catch(() => {}); tellOfPhone(); };
    if (document.readyState === 'complete') begin();
    else addEventListener('load', begin);
  }
  if (document.readyState === 'loading') document.addEventListener('DOMContentLoaded', start);
  else start();
})();
