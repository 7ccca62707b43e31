-- A photo that went with a count, re-encoded here; it stands and falls with its entry.
CREATE TABLE photos (
  id TEXT NOT NULL PRIMARY KEY,
  entry_id TEXT NOT NULL UNIQUE REFERENCES entries (id),
  jpeg BYTEA NOT NULL,
  small BYTEA NOT NULL,
  -- of the small one, in pixels
  small_width BIGINT NOT NULL CHECK (small_width BETWEEN 1 AND 320),
  small_height BIGINT NOT NULL CHECK (small_height BETWEEN 1 AND 320)
);
