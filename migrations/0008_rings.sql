-- Ring trials: the same lots tested by several growers on a plan, under blind marks.

-- Stand-ins that packets of a running ring trial hang on, so that no page can name what they are.
ALTER TABLE varieties ADD COLUMN blind BOOLEAN NOT NULL DEFAULT FALSE;
ALTER TABLE sources ADD COLUMN blind BOOLEAN NOT NULL DEFAULT FALSE;

CREATE TABLE rings (
  id TEXT NOT NULL PRIMARY KEY,
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 40),
  variety_id TEXT NOT NULL REFERENCES varieties (id),
  -- plants of 100 worth finding, and the percent of certainty of finding them
  difference BIGINT NOT NULL CHECK (difference BETWEEN 1 AND 90),
  certainty BIGINT NOT NULL CHECK (certainty BETWEEN 50 AND 99),
  -- lots of one grower; bags and seeds of a bag, of each lot with each grower
  lots_each BIGINT NOT NULL CHECK (lots_each BETWEEN 2 AND 40),
  bags BIGINT NOT NULL CHECK (bags BETWEEN 1 AND 50),
  bag_seeds BIGINT NOT NULL CHECK (bag_seeds BETWEEN 1 AND 500),
  made_by TEXT NOT NULL REFERENCES members (id),
  made_at BIGINT NOT NULL,
  drawn_at BIGINT,
  -- the stand-in lot, once the lots are drawn
  blind_lot TEXT REFERENCES lots (id),
  opened_at BIGINT,
  opened_by TEXT REFERENCES members (id),
  -- opened before all was counted, or given up: the reason
  why TEXT NOT NULL CHECK (length(why) <= 500),
  given_up_at BIGINT,
  version BIGINT NOT NULL
);
CREATE INDEX rings_variety ON rings (variety_id);
CREATE INDEX rings_made_by ON rings (made_by);
CREATE INDEX rings_opened_by ON rings (opened_by);
CREATE INDEX rings_blind_lot ON rings (blind_lot);

-- The lots of the question, each filled from one packet.
CREATE TABLE ring_lots (
  ring_id TEXT NOT NULL REFERENCES rings (id),
  place BIGINT NOT NULL CHECK (place >= 0),
  packet_id TEXT NOT NULL REFERENCES packets (id),
  PRIMARY KEY (ring_id, place),
  UNIQUE (ring_id, packet_id)
);
CREATE INDEX ring_lots_packet ON ring_lots (packet_id);

CREATE TABLE ring_growers (
  ring_id TEXT NOT NULL REFERENCES rings (id),
  member_id TEXT NOT NULL REFERENCES members (id),
  PRIMARY KEY (ring_id, member_id)
);
CREATE INDEX ring_growers_member ON ring_growers (member_id);

-- The key: which grower tests which lot under which mark. The packet of that id is made at the hand-out.
CREATE TABLE ring_packets (
  packet_id TEXT NOT NULL PRIMARY KEY,
  ring_id TEXT NOT NULL,
  place BIGINT NOT NULL,
  member_id TEXT NOT NULL,
  mark_key TEXT NOT NULL UNIQUE REFERENCES marks (key),
  mark TEXT NOT NULL,
  UNIQUE (ring_id, member_id, place),
  FOREIGN KEY (ring_id, place) REFERENCES ring_lots (ring_id, place),
  FOREIGN KEY (ring_id, member_id) REFERENCES ring_growers (ring_id, member_id)
);
CREATE INDEX ring_packets_lot ON ring_packets (ring_id, place);
CREATE INDEX ring_packets_grower ON ring_packets (ring_id, member_id);
