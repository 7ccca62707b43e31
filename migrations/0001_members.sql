-- The club, its members, and how they come in.
CREATE TABLE club (
  id BIGINT PRIMARY KEY CHECK (id = 1),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  time_zone TEXT NOT NULL CHECK (length(time_zone) <= 60),
  made_at BIGINT NOT NULL
);

CREATE TABLE members (
  id TEXT NOT NULL PRIMARY KEY,
  sign_in TEXT NOT NULL CHECK (length(sign_in) BETWEEN 1 AND 60),
  sign_in_key TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  role TEXT NOT NULL CHECK (role IN ('grower', 'organiser')),
  password_hash TEXT NOT NULL,
  measures TEXT NOT NULL CHECK (measures IN ('metric', 'us')),
  made_at BIGINT NOT NULL,
  left_at BIGINT,
  version BIGINT NOT NULL
);

-- A member's letters on marks; a second set may be taken for a new season.
CREATE TABLE letters (
  key TEXT NOT NULL PRIMARY KEY,
  shown TEXT NOT NULL CHECK (length(shown) BETWEEN 1 AND 6),
  member_id TEXT NOT NULL REFERENCES members (id),
  last_number BIGINT NOT NULL CHECK (last_number >= 0),
  made_at BIGINT NOT NULL
);
CREATE INDEX letters_member ON letters (member_id);

-- One-time links: set-up, invitation, reset. Only a hash of the secret is kept.
CREATE TABLE links (
  id TEXT NOT NULL PRIMARY KEY,
  token_hash TEXT NOT NULL UNIQUE,
  purpose TEXT NOT NULL CHECK (purpose IN ('set-up', 'invitation', 'reset')),
  role TEXT NOT NULL CHECK (role IN ('grower', 'organiser')),
  member_id TEXT REFERENCES members (id),
  made_by TEXT REFERENCES members (id),
  made_at BIGINT NOT NULL,
  expires_at BIGINT NOT NULL,
  used_at BIGINT,
  used_by TEXT REFERENCES members (id)
);
CREATE INDEX links_member ON links (member_id);
CREATE INDEX links_made_by ON links (made_by);
CREATE INDEX links_used_by ON links (used_by);

CREATE TABLE sessions (
  token_hash TEXT NOT NULL PRIMARY KEY,
  member_id TEXT NOT NULL REFERENCES members (id),
  made_at BIGINT NOT NULL,
  seen_at BIGINT NOT NULL,
  expires_at BIGINT NOT NULL
);
CREATE INDEX sessions_member ON sessions (member_id);

-- What was already done, by the key that the form carried: a request sent twice counts once.
CREATE TABLE once (
  key TEXT NOT NULL PRIMARY KEY CHECK (length(key) BETWEEN 16 AND 64),
  member_id TEXT NOT NULL REFERENCES members (id),
  action TEXT NOT NULL,
  digest TEXT NOT NULL,
  location TEXT NOT NULL,
  at BIGINT NOT NULL
);
CREATE INDEX once_member ON once (member_id);
