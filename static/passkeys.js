// Passkeys (W3C Web Authentication): a form with data-passkey asks the server what to sign, lets the device sign it, and
// is then sent as any other form.
'use strict';
(() => {
  const bytes = text => Uint8Array.from(atob(text.replaceAll('-', '+').replaceAll('_', '/')), c => c.charCodeAt(0));
  const plain = buffer => btoa(String.fromCharCode(...new Uint8Array(buffer)))
    .replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
  const listed = list => (list ?? []).map(key => ({ ...key, id: bytes(key.id) }));

  async function asked(form) {
    const csrf = form.elements.csrf?.value ?? '';
    const answer = await fetch(form.dataset.ask, { method: 'POST', body: new URLSearchParams({ csrf }) });
    if (!answer.ok) throw new Error(String(answer.status));
    return answer.json();
  }

  async function created(options) {
    const user = { ...options.user, id: bytes(options.user.id) };
    const excludeCredentials = listed(options.excludeCredentials);
    const publicKey = { ...options, user, excludeCredentials, challenge: bytes(options.challenge) };
    const key = await navigator.credentials.create({ publicKey });
    const response = {
      attestationObject: plain(key.response.attestationObject),
      clientDataJSON: plain(key.response.clientDataJSON),
    };
    return { id: key.id, rawId: plain(key.rawId), type: key.type, response };
  }

  async function used(options) {
    const allowCredentials = listed(options.allowCredentials);
    const publicKey = { ...options, allowCredentials, challenge: bytes(options.challenge) };
    const key = await navigator.credentials.get({ publicKey });
    const response = {
      authenticatorData: plain(key.response.authenticatorData),
      clientDataJSON: plain(key.response.clientDataJSON),
      signature: plain(key.response.signature),
      userHandle: key.response.userHandle ? plain(key.response.userHandle) : null,
    };
    return { id: key.id, rawId: plain(key.rawId), type: key.type, response };
  }

  const waiting = new WeakSet();

  async function sign(form) {
    const told = form.querySelector('[role=status]');
    if (waiting.has(form)) return;
    waiting.add(form);
    told.textContent = words('device');
    try {
      const { publicKey, go } = await asked(form);
      if (go) { location.assign(go); return; }
      const key = await (form.dataset.passkey === 'create' ? created : used)(publicKey);
      form.elements.answer.value = JSON.stringify(key);
      told.textContent = '';
      form.requestSubmit();
    } catch {
      told.textContent = words('no-passkey');
    } finally {
      waiting.delete(form);
    }
  }

  if (!window.isSecureContext || !window.PublicKeyCredential) return;
  for (const form of document.querySelectorAll('form[data-passkey]')) {
    form.hidden = false;
    form.addEventListener('submit', event => {
      if (form.elements.answer.value) return;
      event.preventDefault();
      event.stopPropagation();
      sign(form);
    });
  }
  for (const words of document.querySelectorAll('[data-passkey-not]')) words.hidden = true;
})();
