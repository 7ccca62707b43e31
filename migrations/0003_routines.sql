-- The ordered steps before the paper. A version is frozen once a trial has used it.
CREATE TABLE routines (
  id TEXT NOT NULL PRIMARY KEY,
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  name_key TEXT NOT NULL UNIQUE,
  made_by TEXT REFERENCES members (id),
  made_at BIGINT NOT NULL,
  retired_at BIGINT
);
CREATE INDEX routines_made_by ON routines (made_by);

CREATE TABLE routine_versions (
  id TEXT NOT NULL PRIMARY KEY,
  routine_id TEXT NOT NULL REFERENCES routines (id),
  number BIGINT NOT NULL CHECK (number >= 1),
  note TEXT NOT NULL CHECK (length(note) <= 2000),
  frozen BOOLEAN NOT NULL,
  made_by TEXT REFERENCES members (id),
  made_at BIGINT NOT NULL,
  UNIQUE (routine_id, number)
);
CREATE INDEX routine_versions_made_by ON routine_versions (made_by);

-- Strengths in percent; minutes of the step; temperature in degrees C.
CREATE TABLE routine_steps (
  version_id TEXT NOT NULL REFERENCES routine_versions (id),
  position BIGINT NOT NULL CHECK (position >= 1),
  act TEXT NOT NULL CHECK (act IN ('stand water', 'sanitising soak', 'rinse', 'priming soak', 'drain', 'rest')),
  agent TEXT NOT NULL CHECK (length(agent) <= 60),
  stock_percent DOUBLE PRECISION CHECK (stock_percent > 0 AND stock_percent <= 100),
  percent DOUBLE PRECISION CHECK (percent > 0 AND percent <= 100),
  dose TEXT NOT NULL CHECK (length(dose) <= 120),
  minutes BIGINT NOT NULL CHECK (minutes BETWEEN 0 AND 43200),
  temperature_c DOUBLE PRECISION CHECK (temperature_c BETWEEN -30 AND 100),
  place TEXT NOT NULL CHECK (length(place) <= 60),
  note TEXT NOT NULL CHECK (length(note) <= 500),
  PRIMARY KEY (version_id, position),
  CHECK (percent IS NULL OR stock_percent IS NULL OR percent <= stock_percent)
);

-- Solutions as they were made.
CREATE TABLE solutions (
  id TEXT NOT NULL PRIMARY KEY,
  made_by TEXT NOT NULL REFERENCES members (id),
  agent TEXT NOT NULL CHECK (length(agent) BETWEEN 1 AND 60),
  stock_percent DOUBLE PRECISION CHECK (stock_percent > 0 AND stock_percent <= 100),
  percent DOUBLE PRECISION CHECK (percent > 0 AND percent <= 100),
  opened_on DATE,
  volume_ml DOUBLE PRECISION NOT NULL CHECK (volume_ml > 0),
  vials BIGINT NOT NULL CHECK (vials >= 1),
  discard_at BIGINT,
  note TEXT NOT NULL CHECK (length(note) <= 500),
  made_at BIGINT NOT NULL
);
CREATE INDEX solutions_made_by ON solutions (made_by, made_at);
