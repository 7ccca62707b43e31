-- How often a packet was put under another lot: what the club table has to know of packets.
ALTER TABLE packets ADD COLUMN lot_changes BIGINT NOT NULL DEFAULT 0;
CREATE INDEX packets_lot_changes ON packets (lot_changes) WHERE lot_changes > 0;
CREATE INDEX lots_doubtful ON lots (id) WHERE doubtful_cross;
-- The page of a packet asks for seed saved from its plants.
CREATE INDEX lots_parent ON lots (parent_packet);
