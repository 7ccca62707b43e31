// Saving forms marked data-outbox: first on this phone, then on the server. Without this file they post as they are.
'use strict';
self.outboxForms = (() => {
  const root = document.documentElement;
  const member = root.dataset.member;
  const MOMENT = 3500;
  const SAME_TAP = 10 * 1000;

  /* The club's clock, whatever the phone's says: what the server said when it drew this page, and the time since.
     A page that was kept goes by the offset measured last, and never before the last moment heard of. */
  const openedAt = Date.now();
  const openedTicks = performance.now();
  const served = root.dataset.now ? Number(root.dataset.now) * 1000 : null;
  async function clubTime() {
    if (served !== null) return served + Math.max(performance.now() - openedTicks, Date.now() - openedAt);
    const clock = await outbox.fact('clock').catch(() => null);
    return clock ? Math.max(clock.served, Date.now() + clock.offset) : Date.now();
  }
  if (member && served !== null) outbox.note('clock', { served, offset: served - openedAt }).catch(() => {});

  // randomUUID is missing on plain http
  const freshKey = () => [...crypto.getRandomValues(new Uint8Array(16))].map(b => b.toString(16).padStart(2, '0')).join('');

  // A kept page carries a key that may have been used: each form of it gets its own.
  const keys = new WeakMap();
  const hiddenKey = form => form.querySelector('input[name=key]');
  function keyOf(form) {
    if (!keys.has(form)) keys.set(form, served === null ? freshKey() : hiddenKey(form).value);
    return keys.get(form);
  }

  const own = field => field.name && field.type !== 'hidden' && field.type !== 'submit' && field.type !== 'button' && field.name !== 'at';
  const shown = field => field.files ? field.files[0]?.name : field.options ? field.selectedOptions[0]?.textContent.trim() : field.value.trim();
  const labelOf = field => (field.labels?.[0]?.textContent ?? '').trim().replace(/\s+/g, ' ');
  const isTick = field => field.type === 'checkbox' || field.type === 'radio';

  // What was told, in words: only what the member typed, ticked or chose.
  function wordsOf(form, button) {
    const said = [];
    for (const field of form.elements) {
      if (!own(field)) continue;
      if (isTick(field) ? field.checked : shown(field)) said.push(isTick(field) ? labelOf(field) : `${labelOf(field)}: ${shown(field)}`);
    }
    if (button?.name || !said.length && form.dataset.outbox !== 'typed') said.push((button ?? form.querySelector('button')).textContent.trim());
    return said.join(', ').slice(0, 300);
  }
  const markOf = () => document.querySelector('h1 .mark')?.textContent.trim() ?? document.querySelector('h1')?.textContent.trim() ?? '';

  // Weak signal: a photo goes no larger than the server would keep it.
  const SIDE = 1600;
  async function shrunk(file) {
    try {
      const picture = await createImageBitmap(file);
      const scale = Math.min(1, SIDE / Math.max(picture.width, picture.height));
      const canvas = Object.assign(document.createElement('canvas'), { width: Math.round(picture.width * scale), height: Math.round(picture.height * scale) });
      canvas.getContext('2d').drawImage(picture, 0, 0, canvas.width, canvas.height);
      const small = await new Promise(done => canvas.toBlob(done, 'image/jpeg', 0.85));
      return small && small.size < file.size ? small : file;
    } catch {
      return file;
    }
  }
  async function photoOf(data) {
    const [name, file] = data.find(([, value]) => value instanceof File && value.size > 0) ?? [];
    return file ? { name, file: await shrunk(file) } : null;
  }

  const edited = new WeakMap();
  async function describe(form, button) {
    const id = keyOf(form);
    const data = [...new FormData(form, button)];
    const told = data.filter(([, value]) => typeof value === 'string').filter(([name]) => !['csrf', 'key'].includes(name) && !/^seen(-|$)/.test(name));
    const before = edited.get(form);
    const typed = told.some(([name, value]) => name === 'at' && value !== '');
    const made = before && !typed ? before.made : await clubTime();
    return {
      id, member, made,
      action: form.getAttribute('action'), from: location.pathname + location.search, words: wordsOf(form, button),
      mark: markOf(), labelled: Boolean(document.querySelector('h1 .mark')),
      fields: told, photo: await photoOf(data) ?? before?.photo ?? null, at: typed ? '' : `${new Date(made).toISOString().slice(0, 19)}Z`,
      state: 'waiting', errors: [],
    };
  }
  const seenIn = form => served === null ? [] : [...new FormData(form)].filter(([name]) => /^seen(-|$)/.test(name));

  function tell(form, text) {
    let line = form.querySelector('.told');
    if (!line) {
      line = document.createElement('p');
      line.className = 'told';
      line.setAttribute('role', 'status');
      (form.querySelector('.save') ?? form).prepend(line);
    }
    line.textContent = text;
  }

  // The server draws the form again with its errors beside the fields. The mark tells the guard against ghost taps too.
  function sendPlainly(form, button) {
    form.dataset.plainly = 'yes';
    hiddenKey(form).value = keyOf(form);
    form.requestSubmit(button);
  }

  const busy = new WeakSet();
  let last = { text: '', at: 0 };
  async function save(form, button) {
    if (busy.has(form)) return;
    busy.add(form);
    try {
      await saved(form, button);
    } finally {
      busy.delete(form);
    }
  }
  async function saved(form, button) {
    const entry = await describe(form, button);
    const text = JSON.stringify([entry.action, entry.fields, entry.photo?.file.size]);
    if (last.text === text && performance.now() - last.at < SAME_TAP) return;
    tell(form, words('saving'));
    try {
      await outbox.put(entry);
    } catch {
      sendPlainly(form, button);
      return;
    }
    last = { text, at: performance.now() };
    tell(form, words('sending'));
    const sending = outboxForms.flush({ id: entry.id, go: true, seen: seenIn(form) });
    const outcomes = await Promise.race([sending, new Promise(done => setTimeout(done, MOMENT))]);
    const came = outcomes?.get(entry.id);
    if (came?.kind === 'saved') leave(form, came.to);
    else if (!came && !(await outbox.all()).some(e => e.id === entry.id)) sentByWorker(form, entry);
    else if (came?.kind === 'refused' && served !== null) await handOver(form, button, entry, came);
    else await staysHere(form, entry, came);
  }

  // What was typed is on the server: a page that was kept before must not offer it again.
  function leave(form, page) {
    empty(form);
    navigator.serviceWorker?.controller?.postMessage({ answered: true });
    location.assign(page);
  }

  // Its answer went to the worker, and the message of it cannot be had.
  function sentByWorker(form, entry) {
    anew(form);
    tell(form, words('sent', { text: entry.words }));
  }

  const whenSent = () => words(isSecureContext ? 'sent-with-signal' : 'keep-open');
  // No answer within a moment: the page stays, ready for the next count.
  async function staysHere(form, entry, came) {
    last.at = performance.now();
    if (entry.words === '') {
      await outbox.remove(entry.id);
      tell(form, words('nothing-typed'));
      return;
    }
    anew(form);
    if (came?.kind === 'refused') tell(form, words('kept-attention', { text: came.errors[0]?.message }));
    else tell(form, `${words('saved', { text: entry.words })} ${came?.stays ?? whenSent()}`);
    if (isSecureContext) form.querySelector('.told').append(' ', Object.assign(document.createElement('a'), { href: '/', textContent: words('due-now') }));
    told.set(entry.id, form);
  }
  const told = new Map();
  function sent(outcomes) {
    for (const [id, came] of outcomes) {
      const form = told.get(id);
      if (!form || came.kind === 'later') continue;
      told.delete(id);
      if (came.kind === 'saved') tell(form, words('sent', { text: came.entry.words }));
      if (came.kind === 'refused') tell(form, words('attention', { text: came.errors[0]?.message }));
    }
  }

  function anew(form) {
    keys.set(form, freshKey());
    edited.delete(form);
    empty(form);
  }
  function empty(form) {
    form.reset();
    document.querySelectorAll('.flash.warn:not(#damaged)').forEach(warning => warning.remove());
    for (const field of form.elements) {
      if (field.closest('.bad') && own(field) && !isTick(field) && !field.options) field.value = '';
    }
    form.dispatchEvent(new Event('change', { bubbles: true }));
    form.querySelector('input:not([type=hidden])')?.dispatchEvent(new Event('change', { bubbles: true }));
  }

  /* Edit: /bags/…#edit=ID opens the form with what was typed and what the server said of it. */
  async function openToEdit() {
    const id = /^#edit=([0-9a-f]{32})$/.exec(location.hash)?.[1];
    const entry = id && (await outbox.all()).find(e => e.id === id && e.member === member);
    if (!entry) return;
    const form = [...document.querySelectorAll('form[data-outbox]')].find(f => f.getAttribute('action') === entry.action);
    warn(form, entry);
    if (!form) return;
    keys.set(form, entry.id);
    edited.set(form, entry);
    const given = new Map();
    for (const [name, value] of entry.fields) given.set(name, [...given.get(name) ?? [], value]);
    for (const field of form.elements) {
      if (!field.name || ['hidden', 'submit', 'button'].includes(field.type) || !field.willValidate) continue;
      const values = given.get(field.name) ?? [];
      if (isTick(field)) field.checked = values.includes(field.value);
      else field.value = values[0] ?? '';
      if (values.length) field.closest('details')?.setAttribute('open', '');
    }
  }
  function warn(form, entry) {
    const box = document.createElement('div');
    const lines = entry.errors.map(e => Object.assign(document.createElement('li'), { textContent: e.message }));
    const list = document.createElement('ul');
    box.className = 'flash warn';
    box.setAttribute('role', 'alert');
    box.append(document.createElement('div'));
    list.append(...lines);
    const way = form ? words('mend', { time: outboxForms.moment(entry.made) }) : words('no-form');
    box.firstChild.append(words('not-saved-yet', { text: entry.words }), list, way);
    (form ?? document.querySelector('#main h1')).before(box);
  }

  /* A refusal with signal: the server draws the form again with its errors beside the fields. The count needs attention
     until that form, which has its key, is saved, here or some other day. Where the form is not on the next page, what
     became of it is for the server to say. */
  async function handOver(form, button, entry, { errors }) {
    last.text = '';
    await (entry.words === '' ? outbox.remove(entry.id) : outbox.put({ ...entry, state: 'attention', errors, handed: true }));
    sendPlainly(form, button);
  }
  function isDrawn(entry) {
    const refused = served !== null && document.querySelector('.flash.warn:not(#damaged)');
    return Boolean(refused) && [...document.querySelectorAll('form[data-outbox]')].some(form => hiddenKey(form).value === entry.id);
  }
  async function takeBack() {
    const handed = (await outbox.all()).filter(entry => entry.handed);
    for (const entry of handed) {
      await outbox.put({ ...entry, handed: false, ...isDrawn(entry) ? {} : { state: 'waiting', errors: [] } });
    }
    if (handed.length) outboxForms.flush();
  }

  document.addEventListener('submit', event => {
    const form = event.target;
    const plainly = form.dataset.plainly !== undefined;
    delete form.dataset.plainly;
    const leave = event.defaultPrevented || !member || !form.hasAttribute('data-outbox') || plainly;
    if (leave || event.submitter?.hasAttribute('data-live')) return;
    event.preventDefault();
    save(form, event.submitter);
  });
  document.addEventListener('DOMContentLoaded', () => {
    if (!member) return;
    takeBack().catch(() => {});
    openToEdit().catch(() => {});
  });

  return { member, live: served !== null, sent, isDrawn };
})();
