-- How the sources stand, as computed last: rooted by the standard day, or at the close. Made off the request path.
CREATE TABLE standings (
  by_when TEXT NOT NULL PRIMARY KEY CHECK (by_when IN ('day', 'close')),
  of_version TEXT NOT NULL,
  as_of DATE NOT NULL,
  made_at BIGINT NOT NULL,
  document TEXT NOT NULL
);

-- Who does a job that one process at a time may do, and until when at most.
CREATE TABLE leases (
  job TEXT NOT NULL PRIMARY KEY,
  holder TEXT NOT NULL,
  until_at BIGINT NOT NULL
);
