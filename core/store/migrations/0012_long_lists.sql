-- What long lists ask for.

-- Beads still to be weighed stand in a table, so that nobody has to look at every bead there ever was to find them: each
-- with what is weighed next, itself or the gold that parting left of it. The table follows from the records. The view says how,
-- triggers keep it with every change, and a check compares the two (docs/decisions/0015-what-waits-stands-in-tables.md).

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

-- The samples of a consignment that stand: the newest of each orders the clients, without reading the samples themselves.
DROP INDEX sample_consignment;
CREATE INDEX sample_consignment ON sample (consignment_id, struck);

-- The words that there are, in the order of their letters: what is typed is looked for as whole words
-- (docs/decisions/0016-find-by-the-words-there-are.md).
CREATE VIRTUAL TABLE search_word USING fts5vocab(search, 'instance');

-- In the same way samples of which nothing was cut yet that is tested (`cut` tells whether there is any portion), and portions
-- whose test was not begun.
CREATE VIEW sample_lacking AS
SELECT s.id AS sample_id, EXISTS (SELECT 1 FROM portion p WHERE p.sample_id = s.id AND p.struck = 0) AS cut
FROM sample s
WHERE s.struck = 0 AND NOT EXISTS (
  SELECT 1 FROM portion p WHERE p.sample_id = s.id AND p.struck = 0
    AND p.purpose NOT IN ('split', 'reject', 'retain', 'composite', 'oversize', 'undersize'));

CREATE VIEW portion_lacking AS
SELECT p.id AS portion_id, p.purpose AS purpose FROM portion p
WHERE p.struck = 0 AND (
  (p.purpose = 'pan' AND NOT EXISTS (SELECT 1 FROM pan_test t WHERE t.portion_id = p.id AND t.struck = 0))
  OR (p.purpose = 'fire' AND NOT EXISTS (SELECT 1 FROM charge c WHERE c.portion_id = p.id AND c.struck = 0))
  OR (p.purpose = 'sieve' AND NOT EXISTS
    (SELECT 1 FROM sieve_analysis a WHERE a.portion_id = p.id AND a.struck = 0 AND a.spoiled IS NULL)));

CREATE TABLE sample_to_cut (
  sample_id INTEGER PRIMARY KEY,
  cut INTEGER NOT NULL CHECK (cut IN (0, 1))
) STRICT;
INSERT INTO sample_to_cut SELECT sample_id, cut FROM sample_lacking;

CREATE TABLE portion_to_test (
  portion_id INTEGER PRIMARY KEY,
  purpose TEXT NOT NULL
) STRICT;
INSERT INTO portion_to_test SELECT portion_id, purpose FROM portion_lacking;
CREATE INDEX portion_to_test_purpose ON portion_to_test (purpose);

CREATE TRIGGER new_sample_is_to_cut AFTER INSERT ON sample
BEGIN
  INSERT INTO sample_to_cut SELECT sample_id, cut FROM sample_lacking WHERE sample_id = NEW.id;
END;
CREATE TRIGGER changed_sample_is_to_cut AFTER UPDATE OF struck ON sample
BEGIN
  DELETE FROM sample_to_cut WHERE sample_id = NEW.id;
  INSERT INTO sample_to_cut SELECT sample_id, cut FROM sample_lacking WHERE sample_id = NEW.id;
END;
CREATE TRIGGER new_portion_of_sample AFTER INSERT ON portion
BEGIN
  DELETE FROM sample_to_cut WHERE sample_id = NEW.sample_id;
  INSERT INTO sample_to_cut SELECT sample_id, cut FROM sample_lacking WHERE sample_id = NEW.sample_id;
  INSERT INTO portion_to_test SELECT portion_id, purpose FROM portion_lacking WHERE portion_id = NEW.id;
END;
CREATE TRIGGER changed_portion_of_sample AFTER UPDATE OF struck, sample_id, purpose ON portion
BEGIN
  DELETE FROM sample_to_cut WHERE sample_id IN (OLD.sample_id, NEW.sample_id);
  INSERT INTO sample_to_cut SELECT sample_id, cut FROM sample_lacking WHERE sample_id IN (OLD.sample_id, NEW.sample_id);
  DELETE FROM portion_to_test WHERE portion_id = NEW.id;
  INSERT INTO portion_to_test SELECT portion_id, purpose FROM portion_lacking WHERE portion_id = NEW.id;
END;

CREATE TRIGGER new_pan_test_of_portion AFTER INSERT ON pan_test
BEGIN
  DELETE FROM portion_to_test WHERE portion_id = NEW.portion_id;
  INSERT INTO portion_to_test SELECT portion_id, purpose FROM portion_lacking WHERE portion_id = NEW.portion_id;
END;
CREATE TRIGGER changed_pan_test_of_portion AFTER UPDATE OF struck, portion_id ON pan_test
BEGIN
  DELETE FROM portion_to_test WHERE portion_id IN (OLD.portion_id, NEW.portion_id);
  INSERT INTO portion_to_test SELECT portion_id, purpose FROM portion_lacking WHERE portion_id IN (OLD.portion_id, NEW.portion_id);
END;

CREATE TRIGGER new_charge_of_portion AFTER INSERT ON charge
BEGIN
  DELETE FROM portion_to_test WHERE portion_id = NEW.portion_id;
  INSERT INTO portion_to_test SELECT portion_id, purpose FROM portion_lacking WHERE portion_id = NEW.portion_id;
END;
CREATE TRIGGER changed_charge_of_portion AFTER UPDATE OF struck, portion_id ON charge
BEGIN
  DELETE FROM portion_to_test WHERE portion_id IN (OLD.portion_id, NEW.portion_id);
  INSERT INTO portion_to_test SELECT portion_id, purpose FROM portion_lacking WHERE portion_id IN (OLD.portion_id, NEW.portion_id);
END;

CREATE TRIGGER new_sieve_analysis_of_portion AFTER INSERT ON sieve_analysis
BEGIN
  DELETE FROM portion_to_test WHERE portion_id = NEW.portion_id;
  INSERT INTO portion_to_test SELECT portion_id, purpose FROM portion_lacking WHERE portion_id = NEW.portion_id;
END;
CREATE TRIGGER changed_sieve_analysis_of_portion AFTER UPDATE OF struck, portion_id, spoiled ON sieve_analysis
BEGIN
  DELETE FROM portion_to_test WHERE portion_id IN (OLD.portion_id, NEW.portion_id);
  INSERT INTO portion_to_test SELECT portion_id, purpose FROM portion_lacking WHERE portion_id IN (OLD.portion_id, NEW.portion_id);
END;

-- And what was tested of each sample: by the pan, by the fire. A bead counts that was weighed, or looked for in vain, in a
-- test that is not spoiled.
CREATE VIEW sample_testing AS
SELECT s.id AS sample_id,
  EXISTS (SELECT 1 FROM portion p JOIN pan_test t ON t.portion_id = p.id JOIN bead b ON b.pan_test_id = t.id
    WHERE p.sample_id = s.id AND p.struck = 0 AND t.struck = 0 AND t.spoiled IS NULL AND b.struck = 0 AND (b.none_seen = 1 OR EXISTS
      (SELECT 1 FROM weighing w WHERE w.bead_id = b.id AND w.what = 'bead' AND w.struck = 0 AND w.excluded IS NULL))) AS pan,
  EXISTS (SELECT 1 FROM portion p JOIN charge c ON c.portion_id = p.id JOIN bead b ON b.charge_id = c.id
    WHERE p.sample_id = s.id AND p.struck = 0 AND c.struck = 0 AND c.spoiled IS NULL AND b.struck = 0 AND (b.none_seen = 1 OR EXISTS
      (SELECT 1 FROM weighing w WHERE w.bead_id = b.id AND w.what = 'bead' AND w.struck = 0 AND w.excluded IS NULL))) AS fire
FROM sample s WHERE s.struck = 0;

CREATE VIEW sample_of_bead AS
SELECT b.id AS bead_id, p.sample_id AS sample_id
FROM bead b LEFT JOIN pan_test t ON t.id = b.pan_test_id LEFT JOIN charge c ON c.id = b.charge_id
JOIN portion p ON p.id = coalesce(t.portion_id, c.portion_id);

CREATE TABLE sample_tested (
  sample_id INTEGER PRIMARY KEY,
  pan INTEGER NOT NULL CHECK (pan IN (0, 1)),
  fire INTEGER NOT NULL CHECK (fire IN (0, 1))
) STRICT;
INSERT INTO sample_tested SELECT sample_id, pan, fire FROM sample_testing;

CREATE TRIGGER new_weighing_tests AFTER INSERT ON weighing
WHEN NEW.what = 'bead' AND NEW.struck = 0 AND NEW.excluded IS NULL
BEGIN
  DELETE FROM sample_tested WHERE sample_id IN (SELECT sample_id FROM sample_of_bead WHERE bead_id = NEW.bead_id);
  INSERT INTO sample_tested SELECT sample_id, pan, fire FROM sample_testing WHERE sample_id IN (SELECT sample_id FROM sample_of_bead WHERE bead_id = NEW.bead_id);
END;

CREATE TRIGGER changed_weighing_tests AFTER UPDATE OF struck, bead_id, what, excluded ON weighing
WHEN OLD.what = 'bead' OR NEW.what = 'bead'
BEGIN
  DELETE FROM sample_tested WHERE sample_id IN (SELECT sample_id FROM sample_of_bead WHERE bead_id IN (OLD.bead_id, NEW.bead_id));
  INSERT INTO sample_tested SELECT sample_id, pan, fire FROM sample_testing WHERE sample_id IN (SELECT sample_id FROM sample_of_bead WHERE bead_id IN (OLD.bead_id, NEW.bead_id));
END;

CREATE TRIGGER new_bead_tests AFTER INSERT ON bead
WHEN NEW.none_seen = 1 OR EXISTS (SELECT 1 FROM weighing w WHERE w.bead_id = NEW.id)
BEGIN
  DELETE FROM sample_tested WHERE sample_id IN (SELECT sample_id FROM sample_of_bead WHERE bead_id = NEW.id);
  INSERT INTO sample_tested SELECT sample_id, pan, fire FROM sample_testing WHERE sample_id IN (SELECT sample_id FROM sample_of_bead WHERE bead_id = NEW.id);
END;

CREATE TRIGGER changed_bead_tests AFTER UPDATE OF struck, none_seen ON bead
BEGIN
  DELETE FROM sample_tested WHERE sample_id IN (SELECT sample_id FROM sample_of_bead WHERE bead_id = NEW.id);
  INSERT INTO sample_tested SELECT sample_id, pan, fire FROM sample_testing WHERE sample_id IN (SELECT sample_id FROM sample_of_bead WHERE bead_id = NEW.id);
END;

CREATE TRIGGER changed_pan_test_tests AFTER UPDATE OF struck, portion_id, spoiled ON pan_test
BEGIN
  DELETE FROM sample_tested WHERE sample_id IN (SELECT sample_id FROM portion WHERE id IN (OLD.portion_id, NEW.portion_id));
  INSERT INTO sample_tested SELECT sample_id, pan, fire FROM sample_testing WHERE sample_id IN (SELECT sample_id FROM portion WHERE id IN (OLD.portion_id, NEW.portion_id));
END;

CREATE TRIGGER changed_charge_tests AFTER UPDATE OF struck, portion_id, spoiled ON charge
BEGIN
  DELETE FROM sample_tested WHERE sample_id IN (SELECT sample_id FROM portion WHERE id IN (OLD.portion_id, NEW.portion_id));
  INSERT INTO sample_tested SELECT sample_id, pan, fire FROM sample_testing WHERE sample_id IN (SELECT sample_id FROM portion WHERE id IN (OLD.portion_id, NEW.portion_id));
END;

CREATE TRIGGER changed_portion_tests AFTER UPDATE OF struck, sample_id ON portion
BEGIN
  DELETE FROM sample_tested WHERE sample_id IN (OLD.sample_id, NEW.sample_id);
  INSERT INTO sample_tested SELECT sample_id, pan, fire FROM sample_testing WHERE sample_id IN (OLD.sample_id, NEW.sample_id);
END;

CREATE TRIGGER new_sample_tests AFTER INSERT ON sample
BEGIN
  DELETE FROM sample_tested WHERE sample_id IN (NEW.id);
  INSERT INTO sample_tested SELECT sample_id, pan, fire FROM sample_testing WHERE sample_id IN (NEW.id);
END;

CREATE TRIGGER changed_sample_tests AFTER UPDATE OF struck ON sample
BEGIN
  DELETE FROM sample_tested WHERE sample_id IN (NEW.id);
  INSERT INTO sample_tested SELECT sample_id, pan, fire FROM sample_testing WHERE sample_id IN (NEW.id);
END;

-- What is kept until a date.
CREATE INDEX sample_retained ON sample (retain_until) WHERE retain_until IS NOT NULL AND disposal IS NULL;
