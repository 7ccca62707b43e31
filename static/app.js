// Small helps for the bench. Every page works without this file.
'use strict';
(() => {
  const root = document.documentElement;
  root.classList.add('js');

  const all = (selector, within = document) => [...within.querySelectorAll(selector)];
  // Folds a name or a mark: "Señorita" finds by "seno", "JB 42" by "jb42".
  const fold = text => text.normalize('NFD').replace(/[\u0300-\u036f\s]/g, '').toLowerCase();

  let speaker, speaking;
  // Tells a screen reader, without moving the focus. Quick changes are said once, at the end.
  function say(text) {
    clearTimeout(speaking);
    speaking = setTimeout(() => { speaker.textContent = text; }, 400);
  }
  function makeSpeaker() {
    speaker = document.createElement('p');
    speaker.className = 'vh';
    speaker.setAttribute('role', 'status');
    document.body.append(speaker);
  }

  /* Steppers: <button type="button" data-step="-1"> beside an input in .stepper.
     data-min (0 if absent) and data-max on the input bound the button, never the typing.
     An empty field stays empty until touched: a look not made is not a zero. */
  const bound = (value, min, max) => Math.min(Math.max(value, min), max);
  function step(button) {
    const input = button.closest('.stepper')?.querySelector('input');
    if (!input || input.disabled || input.readOnly) return;
    const typed = input.value.trim();
    if (!/^-?\d*$/.test(typed)) return;
    const min = Number(input.dataset.min ?? 0);
    const max = Number(input.dataset.max ?? Infinity);
    const next = bound(Number(typed) + Number(button.dataset.step), min, max);
    input.value = next;
    input.dispatchEvent(new Event('input', { bubbles: true }));
    input.dispatchEvent(new Event('change', { bubbles: true }));
    const name = input.labels?.[0]?.textContent.trim() ?? input.getAttribute('aria-label') ?? '';
    say(`${name} ${next}`.trim());
  }

  /* Timers: data-until="epoch seconds" gives "out in 12 min".
     <html data-now="epoch seconds"> from the server corrects a phone with a wrong clock. */
  const openedAt = Date.now();
  const offset = root.dataset.now ? Number(root.dataset.now) * 1000 - openedAt : 0;
  function span(seconds) {
    if (seconds < 120) return words('seconds', { n: seconds });
    const minutes = Math.floor(seconds / 60);
    if (minutes < 120) return words('minutes', { n: minutes });
    const hours = Math.floor(minutes / 60);
    if (hours >= 48) return counted('days', Math.floor(hours / 24));
    return minutes % 60 ? words('hours-minutes', { n: hours, time: minutes % 60 }) : words('hours', { n: hours });
  }
  function wait(left) {
    if (left > 0) return words('out-in', { time: span(left) });
    if (left > -60) return words('out-now');
    return words('out-over', { time: span(Math.max(-left, 120)) });
  }
  function tick() {
    const now = (Date.now() + offset) / 1000;
    for (const element of all('[data-until]')) {
      const left = Math.round(Number(element.dataset.until) - now);
      if (!Number.isFinite(left)) continue;
      const text = wait(left);
      const wasEarly = element.dataset.early === 'yes';
      element.dataset.early = left > 0 ? 'yes' : 'no';
      element.classList.toggle('late', left <= 0);
      if (element.textContent !== text) element.textContent = text;
      if (wasEarly && left <= 0) say(`${element.dataset.name ?? ''} ${text}`.trim());
    }
  }

  /* What is typed survives a reload or a step back: forms with an id, for this tab, half a day.
     Only answers that differ from what the server drew are kept; data-keep="no" opts a form or field out. */
  const KEPT = 'kept ';
  const SENT = 'sent';
  const HALF_DAY = 12 * 3600 * 1000;
  // Attributes, not properties: a field named "id" or "method" would hide those.
  const idOf = form => form.getAttribute('id');
  // By where it is sent, which is the same on its page and on the one that refused it; data-of says of which step it is.
  const keyOf = form => `${KEPT}${form.getAttribute('action') ?? location.pathname}#${idOf(form)} ${form.dataset.of ?? ''}`;
  const keeps = form => form && idOf(form) && /^post$/i.test(form.getAttribute('method')) && form.dataset.keep !== 'no';
  const isTick = field => field.type === 'radio' || field.type === 'checkbox';
  function store(action) {
    try { return action(sessionStorage); } catch { return null; }
  }
  function fieldsOf(form) {
    const seen = {};
    return [...form.elements]
      .filter(f => f.name && f.dataset.keep !== 'no' && !['hidden', 'password', 'file', 'submit', 'button', 'fieldset', 'datetime-local'].includes(f.type))
      .map(field => [`${field.name} ${seen[field.name] = (seen[field.name] ?? 0) + 1}`, field]);
  }
  function changed(field) {
    if (isTick(field)) return field.checked !== field.defaultChecked;
    if (field.options) {
      return [...field.options].some(o => o.selected !== o.defaultSelected) && field.value !== (drawn(field) ?? '');
    }
    return field.value !== field.defaultValue;
  }
  const drawn = select => (all('option', select).find(o => o.defaultSelected) ?? select.options[0])?.value;
  function keep(form) {
    const answers = {};
    for (const [name, field] of fieldsOf(form)) {
      if (changed(field)) answers[name] = isTick(field) ? field.checked : field.value;
    }
    const any = Object.keys(answers).length > 0;
    store(s => any ? s.setItem(keyOf(form), JSON.stringify({ at: Date.now(), answers })) : s.removeItem(keyOf(form)));
  }
  function recall(form) {
    const kept = store(s => JSON.parse(s.getItem(keyOf(form))));
    if (!kept || Date.now() - kept.at > HALF_DAY || document.querySelector('.flash.warn:not(#damaged)')) return;
    let back = false;
    for (const [name, field] of fieldsOf(form)) {
      if (!(name in kept.answers) || changed(field)) continue;
      if (isTick(field)) field.checked = kept.answers[name];
      else field.value = kept.answers[name];
      field.closest('details')?.setAttribute('open', '');
      back = true;
    }
    if (back) offerToForget(form);
  }
  function offerToForget(form) {
    const note = document.createElement('p');
    const button = document.createElement('button');
    note.className = 'actions quiet';
    note.append(words('typed-back'), ' ', button);
    button.type = 'button';
    button.className = 'plain';
    button.textContent = words('clear-it');
    button.addEventListener('click', () => {
      store(s => s.removeItem(keyOf(form)));
      form.reset();
      note.remove();
      say(words('cleared'));
      fieldsOf(form)[0]?.[1].focus();
    });
    form.prepend(note);
  }
  // A page that shows a .flash (not .warn) says the last form sent was taken in.
  function settle() {
    const sent = store(s => s.getItem(SENT));
    if (sent && document.querySelector('.flash:not(.warn)')) store(s => s.removeItem(sent));
    store(s => s.removeItem(SENT));
  }

  /* A second tap within a second is the same tap. The button is never disabled. */
  const sentAt = new WeakMap();
  function onSubmit(event) {
    const form = event.target;
    const now = Date.now();
    if (event.defaultPrevented) return;
    if (now - (sentAt.get(form) ?? 0) < 1000 && !form.dataset.plainly) { event.preventDefault(); return; }
    sentAt.set(form, now);
    if (form.dataset.forget !== undefined) store(s => s.clear());
    else if (keeps(form)) { keep(form); store(s => s.setItem(SENT, keyOf(form))); }
  }

  /* <input type="checkbox" data-all="bag"> ticks every shown checkbox named "bag" in its form. */
  const boxes = head => all('input[type=checkbox]', head.form ?? document)
    .filter(box => box.name === head.dataset.all && !box.disabled && !box.closest('[hidden]'));
  function tickAll(head) {
    const wanted = head.checked;
    for (const box of boxes(head)) {
      if (box.checked === wanted) continue;
      box.checked = wanted;
      box.dispatchEvent(new Event('change', { bubbles: true }));
    }
  }
  function showHeads() {
    for (const head of all('[data-all]')) {
      const ticked = boxes(head).map(box => box.checked);
      head.checked = ticked.length > 0 && ticked.every(Boolean);
      head.indeterminate = !head.checked && ticked.some(Boolean);
    }
  }

  /* <input data-filter="list-id">: from three letters on, shows only the rows that hold them. */
  function filter(input) {
    const list = document.getElementById(input.dataset.filter);
    if (!list) return;
    const rows = [...(list.tBodies ? list.tBodies[0].rows : list.children)].filter(row => !row.matches('legend, .error'));
    const wanted = fold(input.value);
    for (const row of rows) row.hidden = wanted.length >= 3 && !row.querySelector('.error') && !fold(row.textContent).includes(wanted);
    showHeads();
    if (wanted.length >= 3) say(words('shown', { n: rows.filter(row => !row.hidden).length, total: rows.length }));
  }

  /* <table data-cells>: Enter goes on to the next cell as Tab does, up and down arrows to the cell of the next row. */
  const isCell = field => field.tagName === 'INPUT' && field.type !== 'hidden' && !isTick(field);
  function moveInCells(event) {
    const cell = event.target;
    const table = cell.closest?.('[data-cells]');
    if (!table || !isCell(cell) || event.altKey || event.ctrlKey || event.metaKey) return;
    const cells = all('input', table).filter(isCell);
    let next;
    if (event.key === 'Enter') {
      next = cells[cells.indexOf(cell) + (event.shiftKey ? -1 : 1)] ?? cell.form.querySelector('.main');
    } else if (/^Arrow(Up|Down)$/.test(event.key) && cell.type !== 'date') {
      const row = cell.closest('tr');
      const other = event.key === 'ArrowUp' ? row.previousElementSibling : row.nextElementSibling;
      next = other && all('input', other).filter(isCell)[all('input', row).filter(isCell).indexOf(cell)];
    }
    if (!next) return;
    event.preventDefault();
    next.focus();
    next.select?.();
  }

  /* The undo offer leaves after ten seconds, unless someone is on it. The history keeps the way back. */
  function undoOffer(offer) {
    const busy = () => offer.matches(':focus-within, :hover');
    const leave = () => busy() ? setTimeout(leave, 1000) : offer.remove();
    const begin = () => setTimeout(leave, 1000 * (Number(offer.dataset.undo) || 10));
    if (document.readyState === 'complete') begin();
    else addEventListener('load', begin, { once: true });
  }

  // A wide tray moves inside its frame: bring the next free cell into view.
  function showNext(cell) {
    const tray = cell.closest('.tray');
    if (tray) tray.scrollLeft = cell.offsetLeft - (tray.clientWidth - cell.offsetWidth) / 2;
  }

  function start() {
    makeSpeaker();
    settle();
    all('form[id]').filter(keeps).forEach(recall);
    showHeads();
    all('.tray .next').forEach(showNext);
    all('[data-undo]').forEach(undoOffer);
    all('[data-filter]').forEach(input => input.value && filter(input));
    if (document.querySelector('[data-until]')) {
      tick();
      setInterval(tick, 1000);
    }
  }

  document.addEventListener('click', event => {
    const button = event.target.closest?.('[data-step]');
    if (button) step(button);
  });
  document.addEventListener('input', event => {
    const field = event.target;
    if (field.dataset.filter) filter(field);
    if (keeps(field.form)) keep(field.form);
  });
  document.addEventListener('change', event => {
    if (event.target.dataset.all) tickAll(event.target);
    if (event.target.type === 'checkbox') showHeads();
    if (keeps(event.target.form)) keep(event.target.form);
  });
  document.addEventListener('keydown', moveInCells);
  document.addEventListener('submit', onSubmit);
  if (document.readyState === 'loading') document.addEventListener('DOMContentLoaded', start);
  else start();
})();
