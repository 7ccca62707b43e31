-- Backups into the data's own folder: when, what came of it, and how the try-out of each went.
CREATE TABLE backups (
  id TEXT NOT NULL PRIMARY KEY,
  made_at BIGINT NOT NULL,
  -- empty where none came about
  file TEXT NOT NULL CHECK (length(file) <= 200),
  bytes BIGINT NOT NULL CHECK (bytes >= 0),
  -- why none came about, or what the check found in it; empty where it is good
  problem TEXT NOT NULL CHECK (length(problem) <= 2000),
  -- when it was restored to a scratch place and checked, and what was wrong
  tried_at BIGINT,
  tried_problem TEXT NOT NULL CHECK (length(tried_problem) <= 2000)
);
CREATE INDEX backups_made ON backups (made_at);
