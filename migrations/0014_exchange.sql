-- Lists that come in: kept from the first look to the last, and which of their rows were brought in.
CREATE TABLE uploads (
  id TEXT NOT NULL PRIMARY KEY,
  member_id TEXT NOT NULL REFERENCES members (id),
  -- what it is to be: a season list, counts, another club's table
  sort TEXT NOT NULL CHECK (sort IN ('packets', 'counts', 'club')),
  name TEXT NOT NULL CHECK (length(name) <= 120),
  bytes BYTEA NOT NULL,
  made_at BIGINT NOT NULL
);
CREATE INDEX uploads_member ON uploads (member_id, made_at);

-- The same list twice counts once: a row stands for as long as its entry is not taken back; for good where it
-- came without one (a packet without seeds).
CREATE TABLE brought_in (
  member_id TEXT NOT NULL REFERENCES members (id),
  digest TEXT NOT NULL CHECK (length(digest) = 64),
  line BIGINT NOT NULL CHECK (line >= 1),
  entry_id TEXT REFERENCES entries (id),
  PRIMARY KEY (member_id, digest, line)
);
CREATE INDEX brought_in_entry ON brought_in (entry_id);

-- Which installation this is, told to other clubs so that a newer file replaces the older one.
CREATE TABLE installation (
  id BIGINT PRIMARY KEY CHECK (id = 1),
  code TEXT NOT NULL CHECK (length(code) = 32)
);

-- The tables of other clubs, one for each; never among our own counts.
CREATE TABLE other_clubs (
  code TEXT NOT NULL PRIMARY KEY CHECK (length(code) = 32),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  -- the long table of counts, and the names that the organiser took for one of ours
  counts TEXT NOT NULL,
  names TEXT NOT NULL,
  seeds BIGINT NOT NULL CHECK (seeds >= 0),
  bags BIGINT NOT NULL CHECK (bags >= 0),
  growers BIGINT NOT NULL CHECK (growers >= 0),
  -- the day the other club made it
  made_on DATE NOT NULL,
  licence TEXT NOT NULL CHECK (length(licence) <= 200),
  used BOOLEAN NOT NULL,
  by_member TEXT NOT NULL REFERENCES members (id),
  at BIGINT NOT NULL,
  removed_at BIGINT,
  version BIGINT NOT NULL
);
CREATE INDEX other_clubs_by ON other_clubs (by_member);
