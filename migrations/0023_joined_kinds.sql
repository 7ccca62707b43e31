-- A kind of the club's own that turned out to be another one: its name leads there from then on. NULL: it is itself.
ALTER TABLE kinds ADD COLUMN root_id TEXT REFERENCES kinds (id);
CREATE INDEX kinds_root ON kinds (root_id);
