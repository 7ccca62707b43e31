CREATE TABLE trays (
  id TEXT NOT NULL PRIMARY KEY,
  owner_id TEXT NOT NULL REFERENCES members (id),
  mark_key TEXT NOT NULL UNIQUE REFERENCES marks (key),
  mark TEXT NOT NULL,
  name TEXT NOT NULL CHECK (length(name) <= 80),
  tray_rows BIGINT NOT NULL CHECK (tray_rows BETWEEN 1 AND 60),
  tray_cols BIGINT NOT NULL CHECK (tray_cols BETWEEN 1 AND 60),
  place TEXT NOT NULL CHECK (length(place) <= 80),
  made_at BIGINT NOT NULL,
  finished_at BIGINT,
  version BIGINT NOT NULL
);
CREATE INDEX trays_owner ON trays (owner_id);

-- 1 to n seeds of one bag in one cell. Cells count from 1, row by row.
CREATE TABLE plantings (
  id TEXT NOT NULL PRIMARY KEY,
  tray_id TEXT NOT NULL REFERENCES trays (id),
  cell BIGINT NOT NULL CHECK (cell >= 1),
  bag_id TEXT NOT NULL REFERENCES bags (id),
  unrooted BOOLEAN NOT NULL,
  planted_at BIGINT NOT NULL,
  voided BOOLEAN NOT NULL,
  -- kept: replayed from the entries on each write
  seeds BIGINT NOT NULL CHECK (seeds >= 1),
  up BIGINT NOT NULL CHECK (up >= 0),
  lost BIGINT NOT NULL CHECK (lost >= 0),
  thinned BIGINT NOT NULL CHECK (thinned >= 0),
  potted BIGINT NOT NULL CHECK (potted >= 0),
  ended_at BIGINT,
  end_why TEXT NOT NULL CHECK (length(end_why) <= 200),
  CHECK (up <= seeds),
  CHECK (lost + thinned + potted <= seeds)
);
CREATE INDEX plantings_tray ON plantings (tray_id, cell);
CREATE INDEX plantings_bag ON plantings (bag_id);

-- Which planting a cell holds now: one at a time.
CREATE TABLE tray_cells (
  tray_id TEXT NOT NULL REFERENCES trays (id),
  cell BIGINT NOT NULL CHECK (cell >= 1),
  planting_id TEXT NOT NULL UNIQUE REFERENCES plantings (id),
  PRIMARY KEY (tray_id, cell)
);
