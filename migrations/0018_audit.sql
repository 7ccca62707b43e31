-- Who did what of security and of the club. Rows are only ever added: the engine itself refuses the rest. No text of
-- members stands here; names are looked up, so that erasing a member erases the name here too.
CREATE TABLE audit (
  id TEXT NOT NULL PRIMARY KEY,
  at BIGINT NOT NULL,
  what TEXT NOT NULL CHECK (length(what) BETWEEN 1 AND 40),
  -- NULL: the host, at the command line, or nobody who is known
  by_member TEXT REFERENCES members (id),
  about_member TEXT REFERENCES members (id),
  more TEXT NOT NULL CHECK (length(more) <= 60)
);
CREATE INDEX audit_at ON audit (at);
CREATE INDEX audit_by ON audit (by_member, at);
CREATE INDEX audit_about ON audit (about_member, at);
-- [sqlite]
CREATE TRIGGER audit_stays BEFORE UPDATE ON audit BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
CREATE TRIGGER audit_keeps BEFORE DELETE ON audit BEGIN SELECT RAISE(ABORT, 'the record is only added to'); END;
-- [postgres]
CREATE FUNCTION audit_refuses() RETURNS trigger LANGUAGE plpgsql AS
  'BEGIN RAISE EXCEPTION ''the record is only added to''; END';
CREATE TRIGGER audit_stays BEFORE UPDATE OR DELETE OR TRUNCATE ON audit
  FOR EACH STATEMENT EXECUTE FUNCTION audit_refuses();
-- [both]
