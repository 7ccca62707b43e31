-- One packet put through one routine by one grower at one time.
CREATE TABLE trials (
  id TEXT NOT NULL PRIMARY KEY,
  packet_id TEXT NOT NULL REFERENCES packets (id),
  owner_id TEXT NOT NULL REFERENCES members (id),
  version_id TEXT NOT NULL REFERENCES routine_versions (id),
  -- trials split from one packet with a shared start carry one pair
  pair TEXT,
  began_at BIGINT NOT NULL,
  voided BOOLEAN NOT NULL,
  treated_again BOOLEAN NOT NULL,
  -- kept: replayed from the entries on each write
  seeds BIGINT NOT NULL CHECK (seeds >= 0),
  soaking BIGINT NOT NULL CHECK (soaking >= 0),
  thrown_out BIGINT NOT NULL CHECK (thrown_out >= 0),
  lost BIGINT NOT NULL CHECK (lost >= 0),
  returned BIGINT NOT NULL CHECK (returned >= 0),
  step BIGINT NOT NULL CHECK (step >= 1),
  step_at BIGINT NOT NULL,
  sank BIGINT CHECK (sank >= 0),
  floated BIGINT CHECK (floated >= 0),
  floaters TEXT NOT NULL CHECK (floaters IN ('', 'own bag', 'thrown out', 'kept in')),
  version BIGINT NOT NULL
);
CREATE INDEX trials_packet ON trials (packet_id);
CREATE INDEX trials_owner ON trials (owner_id, soaking);
CREATE INDEX trials_version ON trials (version_id);

-- One outer zip bag or box that groups several bags: moved, damped, scanned together.
CREATE TABLE holders (
  id TEXT NOT NULL PRIMARY KEY,
  owner_id TEXT NOT NULL REFERENCES members (id),
  mark_key TEXT NOT NULL UNIQUE REFERENCES marks (key),
  mark TEXT NOT NULL,
  place TEXT NOT NULL CHECK (length(place) <= 80),
  warmth_c DOUBLE PRECISION CHECK (warmth_c BETWEEN -30 AND 60),
  made_at BIGINT NOT NULL,
  gone_at BIGINT
);
CREATE INDEX holders_owner ON holders (owner_id);

-- One replicate on damp paper: a known number of seeds of one trial.
CREATE TABLE bags (
  id TEXT NOT NULL PRIMARY KEY,
  trial_id TEXT NOT NULL REFERENCES trials (id),
  owner_id TEXT NOT NULL REFERENCES members (id),
  mark_key TEXT NOT NULL UNIQUE REFERENCES marks (key),
  mark TEXT NOT NULL,
  floaters BOOLEAN NOT NULL,
  on_paper_at BIGINT NOT NULL,
  holder_id TEXT REFERENCES holders (id),
  place TEXT NOT NULL CHECK (length(place) <= 80),
  warmth_c DOUBLE PRECISION CHECK (warmth_c BETWEEN -30 AND 60),
  weekly BOOLEAN NOT NULL,
  in_doubt BOOLEAN NOT NULL,
  voided BOOLEAN NOT NULL,
  -- kept: replayed from the entries on each write
  seeds BIGINT NOT NULL CHECK (seeds >= 0),
  rooted BIGINT NOT NULL CHECK (rooted >= 0),
  abnormal BIGINT NOT NULL CHECK (abnormal >= 0),
  dead BIGINT NOT NULL CHECK (dead >= 0),
  fresh BIGINT NOT NULL CHECK (fresh >= 0),
  hard BIGINT NOT NULL CHECK (hard >= 0),
  not_examined BIGINT NOT NULL CHECK (not_examined >= 0),
  lost BIGINT NOT NULL CHECK (lost >= 0),
  sown_unrooted BIGINT NOT NULL CHECK (sown_unrooted >= 0),
  moved_out BIGINT NOT NULL CHECK (moved_out >= 0),
  moved_in BIGINT NOT NULL CHECK (moved_in >= 0),
  on_paper BIGINT NOT NULL CHECK (on_paper >= 0),
  ended BIGINT NOT NULL CHECK (ended >= 0),
  looked_at BIGINT,
  closed_at BIGINT,
  ending TEXT NOT NULL CHECK (ending IN ('', 'final count', 'abandoned')),
  version BIGINT NOT NULL,
  CHECK (ended <= rooted),
  CHECK (seeds + moved_in = rooted + abnormal + dead + fresh + hard + not_examined + lost + sown_unrooted
         + moved_out + on_paper)
);
CREATE INDEX bags_trial ON bags (trial_id);
CREATE INDEX bags_owner_open ON bags (owner_id, closed_at);
CREATE INDEX bags_holder ON bags (holder_id);
