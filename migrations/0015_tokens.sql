-- Tokens by which a member's own programs read and record. Only a hash is kept; rows stay when a token ends.
CREATE TABLE tokens (
  id TEXT NOT NULL PRIMARY KEY,
  member_id TEXT NOT NULL REFERENCES members (id),
  secret_hash TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  may TEXT NOT NULL CHECK (may IN ('read', 'record')),
  made_at BIGINT NOT NULL,
  expires_at BIGINT,
  used_at BIGINT,
  ended_at BIGINT
);
CREATE INDEX tokens_member ON tokens (member_id);
