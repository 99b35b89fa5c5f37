-- Care, worms added or given away, and what a site knows of its own containers, materials, bedding and air.
CREATE TABLE care (
  entry_id TEXT PRIMARY KEY REFERENCES entry (id) ON DELETE CASCADE,
  action TEXT NOT NULL CHECK (action IN (
    'loosened', 'watered', 'bedding', 'inoculated', 'drained', 'moved', 'covered', 'taken-out', 'rested', 'woken', 'retired')),
  -- NULL: the whole bin
  zone INTEGER CHECK (zone BETWEEN 1 AND 12),
  grams INTEGER CHECK (grams BETWEEN 1 AND 500000),
  material_id TEXT CHECK (material_id IS NULL OR length(material_id) BETWEEN 1 AND 80),
  -- where a bin was moved to, and where it had stood
  exposure TEXT CHECK (exposure IN ('indoors', 'shade', 'part-sun', 'full-sun')),
  -- share of the uneaten food that was taken out
  share REAL CHECK (share > 0 AND share <= 1)
) STRICT;

CREATE TABLE worm_move (
  entry_id TEXT PRIMARY KEY REFERENCES entry (id) ON DELETE CASCADE,
  direction TEXT NOT NULL CHECK (direction IN ('added', 'given-away', 'split-off')),
  grams INTEGER CHECK (grams BETWEEN 1 AND 500000),
  how TEXT NOT NULL CHECK (how IN ('weighed', 'container', 'guessed')),
  -- share of the bin's worms that left it
  share REAL CHECK (share > 0 AND share <= 1),
  other_bin_id TEXT REFERENCES bin (id),
  CHECK ((direction = 'added') = (grams IS NOT NULL AND share IS NULL)),
  CHECK ((direction = 'added') <> (share IS NOT NULL))
) STRICT;

-- What a container weighed when full: its usual mass is worked out from these.
CREATE TABLE container_weighing (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  container_id TEXT NOT NULL REFERENCES container (id) ON DELETE CASCADE,
  net_g INTEGER NOT NULL CHECK (net_g BETWEEN 1 AND 500000),
  filled REAL NOT NULL DEFAULT 1 CHECK (filled > 0 AND filled <= 1),
  person_id TEXT REFERENCES person (id),
  weighed_at TEXT NOT NULL
) STRICT;
CREATE INDEX container_weighing_of ON container_weighing (container_id, weighed_at);

-- Figures that the catalogue lacks, filled in by the programme.
CREATE TABLE material_figure (
  material_id TEXT PRIMARY KEY CHECK (length(material_id) BETWEEN 1 AND 80),
  moisture_frac_wb REAL CHECK (moisture_frac_wb BETWEEN 0 AND 1),
  carbon_frac_db REAL CHECK (carbon_frac_db BETWEEN 0 AND 1),
  nitrogen_frac_db REAL CHECK (nitrogen_frac_db BETWEEN 0 AND 1),
  bulk_density_kg_m3 REAL CHECK (bulk_density_kg_m3 BETWEEN 5 AND 3000),
  source TEXT NOT NULL CHECK (length(source) BETWEEN 1 AND 200),
  person_id TEXT REFERENCES person (id),
  filled_at TEXT NOT NULL
) STRICT;

-- Bedding in store at a site; what bins used is read from their entries.
CREATE TABLE bedding_move (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  site_id TEXT NOT NULL REFERENCES site (id),
  material_id TEXT NOT NULL CHECK (length(material_id) BETWEEN 1 AND 80),
  kind TEXT NOT NULL CHECK (kind IN ('brought', 'counted', 'thrown-away')),
  grams INTEGER NOT NULL CHECK (grams BETWEEN 0 AND 5000000),
  note TEXT NOT NULL DEFAULT '' CHECK (length(note) <= 2000),
  person_id TEXT REFERENCES person (id),
  moved_at TEXT NOT NULL
) STRICT;
CREATE INDEX bedding_move_at ON bedding_move (site_id, material_id, moved_at);

-- Mean air temperature of a day at a site, typed or brought as a file; it overrides the months.
CREATE TABLE air_reading (
  site_id TEXT NOT NULL REFERENCES site (id) ON DELETE CASCADE,
  local_date TEXT NOT NULL CHECK (local_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  mean_c REAL NOT NULL CHECK (mean_c BETWEEN -60 AND 60),
  PRIMARY KEY (site_id, local_date)
) STRICT, WITHOUT ROWID;
