-- Sessions say where they are and when they were last used; the member's last proof of who they are.
ALTER TABLE sessions ADD COLUMN device TEXT NOT NULL DEFAULT '' CHECK (length(device) <= 80);
ALTER TABLE sessions ADD COLUMN proved_at BIGINT NOT NULL DEFAULT 0;
-- when those from before were last used is not known: none ends earlier than was promised
UPDATE sessions SET seen_at = expires_at - 2592000;

-- Browsers in which a member signed in before. They have tries of their own, so that nobody who guesses elsewhere
-- keeps the member out. Only a hash of the secret in the cookie is kept.
CREATE TABLE devices (
  secret_hash TEXT NOT NULL PRIMARY KEY,
  member_id TEXT NOT NULL REFERENCES members (id),
  made_at BIGINT NOT NULL,
  used_at BIGINT NOT NULL
);
CREATE INDEX devices_member ON devices (member_id);

-- Passkeys: the public half of each, as the library writes it.
CREATE TABLE passkeys (
  id TEXT NOT NULL PRIMARY KEY,
  member_id TEXT NOT NULL REFERENCES members (id),
  credential TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  document TEXT NOT NULL,
  made_at BIGINT NOT NULL,
  used_at BIGINT
);
CREATE INDEX passkeys_member ON passkeys (member_id);

-- What a browser was asked to sign, until it answers, once; found by the secret in its cookie.
CREATE TABLE passkey_asks (
  secret_hash TEXT NOT NULL PRIMARY KEY,
  -- whose new passkey it is; NULL: somebody signs in
  member_id TEXT REFERENCES members (id),
  document TEXT NOT NULL,
  expires_at BIGINT NOT NULL
);
CREATE INDEX passkey_asks_member ON passkey_asks (member_id);
