-- Harvests weighed in several buckets, how wet they were, when they are ready; castings in store and given out; what a feeding stood in on the scale.
CREATE TABLE harvest_now (
  entry_id TEXT PRIMARY KEY REFERENCES entry (id) ON DELETE CASCADE,
  grams INTEGER NOT NULL CHECK (grams BETWEEN 1 AND 500000),
  how TEXT NOT NULL CHECK (how IN ('weighed', 'container', 'guessed')),
  typed_value REAL CHECK (typed_value IS NULL OR typed_value BETWEEN 0 AND 1000000),
  typed_unit TEXT CHECK (typed_unit IN ('kg', 'g', 'lb', 'oz', 'container')),
  destination TEXT NOT NULL CHECK (destination IN ('plots', 'beds', 'class', 'sale', 'given-away', 'stock', 'curing', 'other')),
  destination_note TEXT NOT NULL DEFAULT '' CHECK (length(destination_note) <= 200),
  -- in whose store it is: the site at which its bin stood then
  site_id TEXT NOT NULL REFERENCES site (id),
  -- of castings that cure: the day from which they may be given out
  ready_on TEXT CHECK (ready_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  screened INTEGER CHECK (screened IN (0, 1)),
  volume_ml INTEGER CHECK (volume_ml BETWEEN 1 AND 2000000),
  squeeze TEXT CHECK (squeeze IN ('crumbles', 'damp', 'one-two-drops', 'few-drops', 'trickle')),
  -- a sample dried in a dish, as the scale showed it: the dish, with what was wet in it, and dry
  dish_mg INTEGER CHECK (dish_mg BETWEEN 0 AND 5000000),
  wet_mg INTEGER CHECK (wet_mg BETWEEN 1 AND 5000000),
  dry_mg INTEGER CHECK (dry_mg BETWEEN 1 AND 5000000),
  CHECK ((destination = 'curing') = (ready_on IS NOT NULL)),
  CHECK ((dish_mg IS NULL) = (wet_mg IS NULL) AND (wet_mg IS NULL) = (dry_mg IS NULL)),
  CHECK (dish_mg IS NULL OR (dish_mg < dry_mg AND dry_mg <= wet_mg)),
  CHECK (squeeze IS NULL OR dish_mg IS NULL)
) STRICT;
INSERT INTO harvest_now (entry_id, grams, how, typed_value, typed_unit, destination, destination_note, site_id, ready_on)
  SELECT h.entry_id, h.grams, h.how, h.typed_value, h.typed_unit, h.destination, h.destination_note, b.site_id,
    CASE h.destination WHEN 'curing' THEN date(e.local_date, '+21 days') END
  FROM harvest h JOIN entry e ON e.id = h.entry_id JOIN bin b ON b.id = e.bin_id;
DROP TABLE harvest;
ALTER TABLE harvest_now RENAME TO harvest;
CREATE INDEX harvest_site ON harvest (site_id, destination);

-- Each bucket as the scale showed it, and what it weighs empty; the harvest is what is left of all of them.
CREATE TABLE harvest_bucket (
  entry_id TEXT NOT NULL REFERENCES harvest (entry_id) ON DELETE CASCADE,
  seq INTEGER NOT NULL CHECK (seq BETWEEN 0 AND 39),
  gross_g INTEGER NOT NULL CHECK (gross_g BETWEEN 1 AND 500000),
  tare_g INTEGER NOT NULL CHECK (tare_g BETWEEN 0 AND 100000),
  container_id TEXT REFERENCES container (id),
  typed_value REAL CHECK (typed_value IS NULL OR typed_value BETWEEN 0 AND 1000000),
  typed_unit TEXT CHECK (typed_unit IN ('kg', 'g', 'lb', 'oz', 'container')),
  PRIMARY KEY (entry_id, seq),
  CHECK (tare_g < gross_g)
) STRICT, WITHOUT ROWID;

-- What the container weighed empty when its food was weighed in it; the scale showed so much more than `grams`.
ALTER TABLE feeding_item ADD COLUMN tare_g INTEGER NOT NULL DEFAULT 0 CHECK (tare_g BETWEEN 0 AND 100000);

-- Castings that came into a site's store other than from its bins, and what went out of it.
CREATE TABLE castings_move (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  site_id TEXT NOT NULL REFERENCES site (id),
  kind TEXT NOT NULL CHECK (kind IN ('given-out', 'brought-in', 'written-off')),
  grams INTEGER NOT NULL CHECK (grams BETWEEN 1 AND 500000),
  how TEXT NOT NULL CHECK (how IN ('weighed', 'container', 'guessed')),
  typed_value REAL CHECK (typed_value IS NULL OR typed_value BETWEEN 0 AND 1000000),
  typed_unit TEXT CHECK (typed_unit IN ('kg', 'g', 'lb', 'oz', 'container')),
  destination TEXT CHECK (destination IN ('plots', 'beds', 'class', 'sale', 'given-away', 'other')),
  destination_note TEXT NOT NULL DEFAULT '' CHECK (length(destination_note) <= 200),
  -- who took it, where somebody wants to be named; it can be erased and is in no report
  receiver TEXT CHECK (length(receiver) BETWEEN 1 AND 80),
  note TEXT NOT NULL DEFAULT '' CHECK (length(note) <= 2000),
  person_id TEXT REFERENCES person (id),
  local_date TEXT NOT NULL CHECK (local_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  moved_at TEXT NOT NULL,
  undone_at TEXT,
  undone_by TEXT REFERENCES person (id),
  CHECK ((kind = 'given-out') = (destination IS NOT NULL)),
  CHECK (kind = 'given-out' OR receiver IS NULL)
) STRICT;
CREATE INDEX castings_move_of ON castings_move (site_id, local_date);

CREATE TRIGGER castings_move_added AFTER INSERT ON castings_move BEGIN INSERT INTO change (topic, subject) VALUES ('stuff', NEW.id); END;
CREATE TRIGGER castings_move_changed AFTER UPDATE ON castings_move BEGIN INSERT INTO change (topic, subject) VALUES ('stuff', NEW.id); END;
