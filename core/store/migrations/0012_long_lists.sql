-- Beads still to be weighed stand in a table, so that nobody has to look at every bead there ever was to find them: each
-- with what is weighed next, itself or the gold that parting left of it. The table follows from the records. The view says how,
-- triggers keep it with every change, and a check compares the two (docs/decisions/0015-beads-to-weigh.md).

CREATE VIEW bead_lacking AS
SELECT b.id AS bead_id, 'bead' AS what FROM bead b
WHERE b.struck = 0 AND b.none_seen = 0
  AND NOT EXISTS (SELECT 1 FROM weighing w WHERE w.bead_id = b.id AND w.struck = 0)
UNION ALL
SELECT b.id, 'gold' FROM bead b
WHERE b.struck = 0 AND b.none_seen = 0 AND coalesce(b.fineness_method, 'parted') = 'parted' AND b.melted_into_id IS NULL
  AND EXISTS (SELECT 1 FROM weighing w WHERE w.bead_id = b.id AND w.what = 'bead' AND w.struck = 0 AND w.excluded IS NULL)
  AND NOT EXISTS (SELECT 1 FROM weighing w WHERE w.bead_id = b.id AND w.what = 'gold' AND w.struck = 0 AND w.excluded IS NULL);

CREATE TABLE bead_to_weigh (
  bead_id INTEGER PRIMARY KEY,
  what TEXT NOT NULL
) STRICT;
INSERT INTO bead_to_weigh SELECT bead_id, what FROM bead_lacking;
CREATE INDEX bead_to_weigh_what ON bead_to_weigh (what);

CREATE TRIGGER new_bead_is_to_weigh AFTER INSERT ON bead
BEGIN
  INSERT INTO bead_to_weigh SELECT bead_id, what FROM bead_lacking WHERE bead_id = NEW.id;
END;
CREATE TRIGGER changed_bead_is_to_weigh AFTER UPDATE OF struck, none_seen, fineness_method, melted_into_id ON bead
BEGIN
  DELETE FROM bead_to_weigh WHERE bead_id = NEW.id;
  INSERT INTO bead_to_weigh SELECT bead_id, what FROM bead_lacking WHERE bead_id = NEW.id;
END;
CREATE TRIGGER new_weighing_of_bead AFTER INSERT ON weighing
BEGIN
  DELETE FROM bead_to_weigh WHERE bead_id = NEW.bead_id;
  INSERT INTO bead_to_weigh SELECT bead_id, what FROM bead_lacking WHERE bead_id = NEW.bead_id;
END;
CREATE TRIGGER changed_weighing_of_bead AFTER UPDATE OF struck, bead_id, what, excluded ON weighing
BEGIN
  DELETE FROM bead_to_weigh WHERE bead_id IN (OLD.bead_id, NEW.bead_id);
  INSERT INTO bead_to_weigh SELECT bead_id, what FROM bead_lacking WHERE bead_id IN (OLD.bead_id, NEW.bead_id);
END;
