-- The language a member reads pages in; empty where it is the browser's.
ALTER TABLE members ADD COLUMN language TEXT NOT NULL DEFAULT '' CHECK (length(language) <= 10);
