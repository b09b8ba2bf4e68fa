-- What a bead weighed in air and in water, from which its fineness follows by density.

ALTER TABLE bead ADD COLUMN in_air TEXT;
ALTER TABLE bead ADD COLUMN in_water TEXT;
