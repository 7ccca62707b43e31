-- What the looks into a bag found, kept beside its sums: the club table reads a row for each bag instead of one for each
-- look. As written by server/notebook/bag/findings.rs.
ALTER TABLE bags ADD COLUMN findings TEXT NOT NULL DEFAULT '';
UPDATE bags SET findings = COALESCE((
  SELECT string_agg(
    CAST(e.at AS TEXT) || ' ' || CAST(COALESCE(l.rooted, 0) AS TEXT)
      || ' ' || CAST(COALESCE(l.abnormal, c.abnormal, 0) AS TEXT)
      || ' ' || CAST(COALESCE(l.dead, c.dead, 0) AS TEXT) || ' ' || CAST(COALESCE(s.seeds, 0) AS TEXT), ';'
    ORDER BY e.at, CASE e.what WHEN 'look' THEN 1 WHEN 'bag seeds' THEN 2 ELSE 3 END, e.id)
  FROM entries e LEFT JOIN looks l ON l.entry_id = e.id LEFT JOIN closings c ON c.entry_id = e.id
    LEFT JOIN bag_seeds s ON s.entry_id = e.id AND s.sort = 'sown unrooted'
  WHERE e.bag_id = bags.id AND (e.what IN ('look', 'closing') OR s.entry_id IS NOT NULL)
    AND NOT EXISTS (SELECT 1 FROM voids x WHERE x.entry_id = e.id)), '');
