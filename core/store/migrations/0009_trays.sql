-- Where a bead stood when it was weighed, what the balance showed with and without its cup, the run of a tray, and beads
-- that were melted together; the gold of
-- what slag and cupel gave back.

ALTER TABLE weighing ADD COLUMN tray_id INTEGER REFERENCES tray;
ALTER TABLE weighing ADD COLUMN position INTEGER;
ALTER TABLE weighing ADD COLUMN gross TEXT;
ALTER TABLE weighing ADD COLUMN tare TEXT;
CREATE INDEX weighing_tray ON weighing (tray_id);

ALTER TABLE tray ADD COLUMN run_id INTEGER REFERENCES furnace_run;
CREATE INDEX tray_run ON tray (run_id);

ALTER TABLE bead ADD COLUMN melted_into_id INTEGER REFERENCES bead;
CREATE INDEX bead_melted_into ON bead (melted_into_id);

ALTER TABLE charge ADD COLUMN slag_gold TEXT;
ALTER TABLE charge ADD COLUMN cupel_gold TEXT;
