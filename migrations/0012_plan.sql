-- The sowing plan: how many plants of what, ready when; and the seeds that are promised for it.
CREATE TABLE plans (
  id TEXT NOT NULL PRIMARY KEY,
  owner_id TEXT NOT NULL REFERENCES members (id),
  -- the season's name
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 40),
  name_key TEXT NOT NULL,
  routine_id TEXT NOT NULL REFERENCES routines (id),
  bag_seeds BIGINT NOT NULL CHECK (bag_seeds BETWEEN 1 AND 500),
  warmth_c DOUBLE PRECISION NOT NULL CHECK (warmth_c BETWEEN -30 AND 60),
  tray_rows BIGINT NOT NULL CHECK (tray_rows BETWEEN 1 AND 60),
  tray_cols BIGINT NOT NULL CHECK (tray_cols BETWEEN 1 AND 60),
  -- percent
  certainty BIGINT NOT NULL CHECK (certainty BETWEEN 50 AND 99),
  -- what there is room for; NULL where the member did not say
  mat_bags BIGINT CHECK (mat_bags BETWEEN 1 AND 10000),
  trays BIGINT CHECK (trays BETWEEN 1 AND 1000),
  made_at BIGINT NOT NULL,
  UNIQUE (owner_id, name_key)
);
CREATE INDEX plans_routine ON plans (routine_id);

CREATE TABLE plan_lines (
  id TEXT NOT NULL PRIMARY KEY,
  plan_id TEXT NOT NULL REFERENCES plans (id),
  variety_id TEXT NOT NULL REFERENCES varieties (id),
  -- NULL: from whichever source there is seed
  source_id TEXT REFERENCES sources (id),
  plants BIGINT NOT NULL CHECK (plants BETWEEN 1 AND 2000),
  ready_on DATE NOT NULL,
  -- NULL: as the plan says, and as is usual for the kind
  certainty BIGINT CHECK (certainty BETWEEN 50 AND 99),
  raise_weeks BIGINT CHECK (raise_weeks BETWEEN 0 AND 52),
  warmth_c DOUBLE PRECISION CHECK (warmth_c BETWEEN -30 AND 60),
  made_at BIGINT NOT NULL,
  -- taken off the plan; what was promised for it stays on record
  gone_at BIGINT,
  version BIGINT NOT NULL
);
CREATE INDEX plan_lines_plan ON plan_lines (plan_id);
CREATE INDEX plan_lines_variety ON plan_lines (variety_id);
CREATE INDEX plan_lines_source ON plan_lines (source_id);

-- Seeds of a packet that an accepted line of a plan counts on, until its trial is started or it is withdrawn.
CREATE TABLE promises (
  id TEXT NOT NULL PRIMARY KEY,
  line_id TEXT NOT NULL REFERENCES plan_lines (id),
  packet_id TEXT NOT NULL REFERENCES packets (id),
  owner_id TEXT NOT NULL REFERENCES members (id),
  seeds BIGINT NOT NULL CHECK (seeds >= 1),
  start_on DATE NOT NULL,
  made_at BIGINT NOT NULL,
  ended_at BIGINT,
  how TEXT NOT NULL CHECK (how IN ('', 'started', 'withdrawn')),
  trial_id TEXT REFERENCES trials (id),
  CHECK ((how = '') = (ended_at IS NULL)),
  CHECK ((how = 'started') = (trial_id IS NOT NULL))
);
CREATE INDEX promises_line ON promises (line_id);
CREATE INDEX promises_packet ON promises (packet_id);
CREATE INDEX promises_owner ON promises (owner_id, how);
CREATE INDEX promises_trial ON promises (trial_id);
