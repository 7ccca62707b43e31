-- A label sheet as a member measured it, in mm. A shared one is an organiser's, for everybody.
CREATE TABLE label_sheets (
  id TEXT NOT NULL PRIMARY KEY,
  owner_id TEXT NOT NULL REFERENCES members (id),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 60),
  name_key TEXT NOT NULL,
  shared BOOLEAN NOT NULL,
  page_width DOUBLE PRECISION NOT NULL CHECK (page_width BETWEEN 20 AND 500),
  page_height DOUBLE PRECISION NOT NULL CHECK (page_height BETWEEN 12 AND 1000),
  -- from the edges of the page to the first label
  from_left DOUBLE PRECISION NOT NULL CHECK (from_left >= 0),
  from_top DOUBLE PRECISION NOT NULL CHECK (from_top >= 0),
  width DOUBLE PRECISION NOT NULL CHECK (width > 0),
  height DOUBLE PRECISION NOT NULL CHECK (height > 0),
  -- from one label to the next
  pitch_x DOUBLE PRECISION NOT NULL CHECK (pitch_x >= width),
  pitch_y DOUBLE PRECISION NOT NULL CHECK (pitch_y >= height),
  across BIGINT NOT NULL CHECK (across BETWEEN 1 AND 20),
  down BIGINT NOT NULL CHECK (down BETWEEN 1 AND 60),
  -- what the printer is off by, taken back: to the right and down
  nudge_x DOUBLE PRECISION NOT NULL CHECK (nudge_x BETWEEN -10 AND 10),
  nudge_y DOUBLE PRECISION NOT NULL CHECK (nudge_y BETWEEN -10 AND 10),
  made_at BIGINT NOT NULL,
  UNIQUE (owner_id, name_key)
);

-- A printed count card: bags of one member in the order in which they stand on paper.
CREATE TABLE cards (
  id TEXT NOT NULL PRIMARY KEY,
  owner_id TEXT NOT NULL REFERENCES members (id),
  number BIGINT NOT NULL CHECK (number >= 1),
  -- as in its code: the owner's letters and the number, such as JB-3
  card_key TEXT NOT NULL UNIQUE,
  made_at BIGINT NOT NULL,
  UNIQUE (owner_id, number)
);

CREATE TABLE card_bags (
  card_id TEXT NOT NULL REFERENCES cards (id),
  place BIGINT NOT NULL CHECK (place >= 1),
  bag_id TEXT NOT NULL REFERENCES bags (id),
  PRIMARY KEY (card_id, place)
);
CREATE INDEX card_bags_bag ON card_bags (bag_id);
