-- Names: kinds, varieties, sources. A merged name points at the one it now counts under (root_id).
CREATE TABLE kinds (
  id TEXT NOT NULL PRIMARY KEY,
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  name_key TEXT NOT NULL UNIQUE,
  built_in BOOLEAN NOT NULL,
  made_at BIGINT NOT NULL
);

CREATE TABLE varieties (
  id TEXT NOT NULL PRIMARY KEY,
  kind_id TEXT NOT NULL REFERENCES kinds (id),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
  name_key TEXT NOT NULL,
  species TEXT NOT NULL CHECK (length(species) <= 120),
  root_id TEXT NOT NULL REFERENCES varieties (id),
  made_at BIGINT NOT NULL,
  version BIGINT NOT NULL,
  UNIQUE (kind_id, name_key)
);
CREATE INDEX varieties_root ON varieties (root_id);

CREATE TABLE sources (
  id TEXT NOT NULL PRIMARY KEY,
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
  name_key TEXT NOT NULL UNIQUE,
  sort TEXT NOT NULL CHECK (sort IN ('merchant', 'swap', 'gene bank', 'saved by')),
  member_id TEXT REFERENCES members (id),
  root_id TEXT NOT NULL REFERENCES sources (id),
  made_at BIGINT NOT NULL,
  version BIGINT NOT NULL
);
CREATE INDEX sources_root ON sources (root_id);
CREATE INDEX sources_member ON sources (member_id);

-- Each merge stays on record, also when it is taken back.
CREATE TABLE merges (
  id TEXT NOT NULL PRIMARY KEY,
  about TEXT NOT NULL CHECK (about IN ('variety', 'source')),
  from_id TEXT NOT NULL,
  into_id TEXT NOT NULL,
  by_member TEXT NOT NULL REFERENCES members (id),
  at BIGINT NOT NULL,
  undone_by TEXT REFERENCES members (id),
  undone_at BIGINT,
  CHECK (from_id <> into_id)
);
CREATE INDEX merges_from ON merges (from_id);
CREATE INDEX merges_into ON merges (into_id);
CREATE INDEX merges_by ON merges (by_member);
CREATE INDEX merges_undone_by ON merges (undone_by);

-- Every mark ever given, to whatever it was given, by its folded key.
CREATE TABLE marks (
  key TEXT NOT NULL PRIMARY KEY,
  shown TEXT NOT NULL CHECK (length(shown) BETWEEN 1 AND 24),
  thing TEXT NOT NULL CHECK (thing IN ('packet', 'bag', 'tray', 'holder')),
  thing_id TEXT NOT NULL,
  made_at BIGINT NOT NULL
);
CREATE INDEX marks_thing ON marks (thing_id);

-- variety + source + year + the supplier's lot code (year 0: not known).
CREATE TABLE lots (
  id TEXT NOT NULL PRIMARY KEY,
  variety_id TEXT NOT NULL REFERENCES varieties (id),
  source_id TEXT NOT NULL REFERENCES sources (id),
  year BIGINT NOT NULL CHECK (year = 0 OR year BETWEEN 1900 AND 2200),
  code TEXT NOT NULL CHECK (length(code) <= 60),
  code_key TEXT NOT NULL,
  parent_packet TEXT,
  pollination TEXT NOT NULL CHECK (pollination IN ('', 'open', 'isolated')),
  doubtful_cross BOOLEAN NOT NULL,
  made_at BIGINT NOT NULL,
  UNIQUE (variety_id, source_id, year, code_key)
);
CREATE INDEX lots_source ON lots (source_id);

CREATE TABLE packets (
  id TEXT NOT NULL PRIMARY KEY,
  lot_id TEXT NOT NULL REFERENCES lots (id),
  owner_id TEXT NOT NULL REFERENCES members (id),
  mark_key TEXT NOT NULL UNIQUE REFERENCES marks (key),
  mark TEXT NOT NULL,
  place TEXT NOT NULL CHECK (length(place) <= 80),
  received_on DATE,
  seeds_per_gram DOUBLE PRECISION CHECK (seeds_per_gram > 0),
  state TEXT NOT NULL CHECK (state IN ('plain', 'pelleted', 'primed', 'treated')),
  rough BOOLEAN NOT NULL,
  through TEXT NOT NULL CHECK (length(through) <= 80),
  given_from TEXT REFERENCES packets (id),
  note TEXT NOT NULL CHECK (length(note) <= 2000),
  -- kept: the sum of the ledger
  balance BIGINT NOT NULL CHECK (balance >= 0),
  made_at BIGINT NOT NULL,
  version BIGINT NOT NULL
);
CREATE INDEX packets_lot ON packets (lot_id);
CREATE INDEX packets_owner ON packets (owner_id, mark_key);
CREATE INDEX packets_given_from ON packets (given_from);
