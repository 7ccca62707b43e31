-- The secret address of a member's calendar. Only a hash of it is kept; a new one ends the old.
CREATE TABLE feeds (
  member_id TEXT NOT NULL PRIMARY KEY REFERENCES members (id),
  secret_hash TEXT NOT NULL UNIQUE,
  made_at BIGINT NOT NULL
);
