-- The notebook. Entries are only ever added; a correction voids the old one (see voids).
-- Entries of one act stand and fall together; `save_key` is the key of the form that made them.
CREATE TABLE entries (
  id TEXT NOT NULL PRIMARY KEY,
  act_id TEXT NOT NULL,
  save_key TEXT NOT NULL,
  what TEXT NOT NULL CHECK (what IN ('ledger', 'trial seeds', 'float tally', 'step', 'trial event', 'look', 'closing',
    'bag seeds', 'bag event', 'rooted end', 'planting', 'outcome')),
  packet_id TEXT REFERENCES packets (id),
  trial_id TEXT REFERENCES trials (id),
  bag_id TEXT REFERENCES bags (id),
  tray_id TEXT REFERENCES trays (id),
  planting_id TEXT REFERENCES plantings (id),
  by_member TEXT NOT NULL REFERENCES members (id),
  at BIGINT NOT NULL,
  recorded_at BIGINT NOT NULL,
  note TEXT NOT NULL CHECK (length(note) <= 2000)
);
CREATE INDEX entries_act ON entries (act_id);
CREATE INDEX entries_save ON entries (save_key);
CREATE INDEX entries_packet ON entries (packet_id, at);
CREATE INDEX entries_trial ON entries (trial_id, at);
CREATE INDEX entries_bag ON entries (bag_id, at);
CREATE INDEX entries_tray ON entries (tray_id, at);
CREATE INDEX entries_planting ON entries (planting_id, at);
CREATE INDEX entries_by ON entries (by_member);

CREATE TABLE voids (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entries (id),
  by_member TEXT NOT NULL REFERENCES members (id),
  at BIGINT NOT NULL,
  why TEXT NOT NULL CHECK (length(why) <= 500)
);
CREATE INDEX voids_by ON voids (by_member);

-- A packet's ledger: seeds in (+) and out (-).
CREATE TABLE ledger (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entries (id),
  sort TEXT NOT NULL CHECK (sort IN ('received', 'taken', 'returned', 'found', 'given', 'spoiled', 'recount')),
  seeds BIGINT NOT NULL,
  other_packet TEXT REFERENCES packets (id)
);
CREATE INDEX ledger_other ON ledger (other_packet);

-- A trial's seeds: taken from the packet (+), and where they went (as positive numbers). A recount is signed.
CREATE TABLE trial_seeds (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entries (id),
  sort TEXT NOT NULL CHECK (sort IN ('taken', 'recount', 'to paper', 'thrown out', 'lost', 'returned', 'sown', 'spoiled')),
  seeds BIGINT NOT NULL
);

CREATE TABLE float_tallies (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entries (id),
  sank BIGINT NOT NULL CHECK (sank >= 0),
  floated BIGINT NOT NULL CHECK (floated >= 0),
  floaters TEXT NOT NULL CHECK (floaters IN ('', 'own bag', 'thrown out', 'kept in'))
);

-- A step that was finished (or skipped): what was really used.
CREATE TABLE steps_done (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entries (id),
  position BIGINT NOT NULL CHECK (position >= 1),
  skipped BOOLEAN NOT NULL,
  began_at BIGINT NOT NULL,
  percent DOUBLE PRECISION CHECK (percent > 0 AND percent <= 100),
  solution_id TEXT REFERENCES solutions (id)
);
CREATE INDEX steps_done_solution ON steps_done (solution_id);

CREATE TABLE trial_events (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entries (id),
  sort TEXT NOT NULL CHECK (sort IN ('treated again', 'note'))
);

-- One look into a bag: new since the last look.
CREATE TABLE looks (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entries (id),
  rooted BIGINT NOT NULL CHECK (rooted >= 0),
  abnormal BIGINT NOT NULL CHECK (abnormal >= 0),
  dead BIGINT NOT NULL CHECK (dead >= 0)
);

-- What became of the seeds still on paper when the bag was closed.
CREATE TABLE closings (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entries (id),
  ending TEXT NOT NULL CHECK (ending IN ('final count', 'abandoned')),
  fresh BIGINT NOT NULL CHECK (fresh >= 0),
  hard BIGINT NOT NULL CHECK (hard >= 0),
  dead BIGINT NOT NULL CHECK (dead >= 0),
  abnormal BIGINT NOT NULL CHECK (abnormal >= 0),
  not_examined BIGINT NOT NULL CHECK (not_examined >= 0),
  lost BIGINT NOT NULL CHECK (lost >= 0)
);

-- Seeds that entered or left a bag without a look. A recount is signed.
CREATE TABLE bag_seeds (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entries (id),
  sort TEXT NOT NULL CHECK (sort IN ('on paper', 'recount', 'lost', 'moved out', 'moved in', 'sown unrooted')),
  seeds BIGINT NOT NULL,
  other_bag TEXT REFERENCES bags (id)
);
CREATE INDEX bag_seeds_other ON bag_seeds (other_bag);

CREATE TABLE bag_events (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entries (id),
  sort TEXT NOT NULL CHECK (sort IN ('damped', 'paper changed', 'rinsed', 'soaked again', 'mould seen', 'dried out',
    'overheated', 'moved', 'into holder', 'out of holder', 'handed on', 'look weekly', 'look daily', 'in doubt', 'resolved', 'note')),
  place TEXT NOT NULL CHECK (length(place) <= 80),
  warmth_c DOUBLE PRECISION CHECK (warmth_c BETWEEN -30 AND 60),
  holder_id TEXT REFERENCES holders (id),
  to_member TEXT REFERENCES members (id)
);
CREATE INDEX bag_events_holder ON bag_events (holder_id);
CREATE INDEX bag_events_to ON bag_events (to_member);

-- Ends of rooted seeds, so that nothing nags for ever.
CREATE TABLE rooted_ends (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entries (id),
  sort TEXT NOT NULL CHECK (sort IN ('planted', 'surplus', 'given', 'root broken', 'rotted')),
  seeds BIGINT NOT NULL CHECK (seeds >= 1)
);

CREATE TABLE outcomes (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES entries (id),
  sort TEXT NOT NULL CHECK (sort IN ('up', 'lost', 'thinned', 'potted on', 'ended')),
  seeds BIGINT NOT NULL CHECK (seeds >= 0),
  why TEXT NOT NULL CHECK (length(why) <= 200)
);
