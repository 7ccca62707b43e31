-- Whether a session was opened by a passkey: a host may let organisers in by nothing else.
ALTER TABLE sessions ADD COLUMN by_passkey BOOLEAN NOT NULL DEFAULT FALSE;
