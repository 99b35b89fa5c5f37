-- Times: *_at are UTC instants as text 2026-11-25T08:40:00.000Z; *_on are local dates; masses whole grams.
CREATE TABLE programme (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  one INTEGER NOT NULL DEFAULT 1 UNIQUE CHECK (one = 1),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  is_demo INTEGER NOT NULL CHECK (is_demo IN (0, 1)),
  time_zone TEXT NOT NULL CHECK (length(time_zone) BETWEEN 1 AND 64),
  units TEXT NOT NULL DEFAULT 'metric' CHECK (units IN ('metric', 'us')),
  locale TEXT NOT NULL DEFAULT 'en-GB' CHECK (length(locale) BETWEEN 2 AND 35),
  created_at TEXT NOT NULL
) STRICT;

CREATE TABLE site (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  name TEXT NOT NULL UNIQUE CHECK (length(name) BETWEEN 1 AND 80),
  time_zone TEXT NOT NULL CHECK (length(time_zone) BETWEEN 1 AND 64),
  note TEXT NOT NULL DEFAULT '' CHECK (length(note) <= 2000),
  -- JSON lists of twelve numbers, January first, or NULL
  min_c TEXT CHECK (min_c IS NULL OR (json_valid(min_c) AND json_array_length(min_c) = 12)),
  max_c TEXT CHECK (max_c IS NULL OR (json_valid(max_c) AND json_array_length(max_c) = 12)),
  archived INTEGER NOT NULL DEFAULT 0 CHECK (archived IN (0, 1)),
  created_at TEXT NOT NULL
) STRICT;

CREATE TABLE person (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  name TEXT CHECK (name IS NULL OR length(name) BETWEEN 1 AND 80),
  email TEXT UNIQUE CHECK (email IS NULL OR length(email) <= 254),
  is_adult INTEGER NOT NULL DEFAULT 1 CHECK (is_adult IN (0, 1)),
  owner INTEGER NOT NULL DEFAULT 0 CHECK (owner IN (0, 1)),
  disabled INTEGER NOT NULL DEFAULT 0 CHECK (disabled IN (0, 1)),
  erased_at TEXT,
  created_at TEXT NOT NULL,
  CHECK ((name IS NULL) = (erased_at IS NOT NULL))
) STRICT;

-- site_id NULL: the whole programme.
CREATE TABLE membership (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
  site_id TEXT REFERENCES site (id) ON DELETE CASCADE,
  role TEXT NOT NULL CHECK (role IN ('pupil', 'volunteer', 'site-lead', 'coordinator')),
  created_at TEXT NOT NULL
) STRICT;
CREATE UNIQUE INDEX membership_once ON membership (person_id, ifnull(site_id, ''));

CREATE TABLE credential (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
  kind TEXT NOT NULL CHECK (kind IN ('password', 'totp', 'recovery', 'passkey', 'picture')),
  secret TEXT NOT NULL CHECK (length(secret) BETWEEN 8 AND 4096),
  label TEXT NOT NULL DEFAULT '' CHECK (length(label) <= 80),
  used_at TEXT,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX credential_person ON credential (person_id, kind);

-- token_hash: SHA-256 of the random token in the cookie; the token itself is stored nowhere.
CREATE TABLE sign_in_session (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  token_hash TEXT NOT NULL UNIQUE CHECK (length(token_hash) = 64),
  person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
  kind TEXT NOT NULL CHECK (kind IN ('password', 'device', 'pupil', 'demo')),
  label TEXT NOT NULL DEFAULT '' CHECK (length(label) <= 120),
  created_at TEXT NOT NULL,
  last_seen_at TEXT NOT NULL,
  expires_at TEXT NOT NULL,
  idle_minutes INTEGER CHECK (idle_minutes IS NULL OR idle_minutes > 0),
  ended_at TEXT
) STRICT;
CREATE INDEX sign_in_session_person ON sign_in_session (person_id);

-- One row per account name that was tried, known or not (no user enumeration).
CREATE TABLE sign_in_try (
  account_hash TEXT PRIMARY KEY CHECK (length(account_hash) = 64),
  failures INTEGER NOT NULL DEFAULT 0 CHECK (failures >= 0),
  last_failure_at TEXT NOT NULL
) STRICT;

CREATE TABLE bin (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  site_id TEXT NOT NULL REFERENCES site (id),
  code TEXT NOT NULL UNIQUE CHECK (code GLOB '[A-Z0-9]*' AND length(code) BETWEEN 2 AND 4),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  kind TEXT NOT NULL CHECK (kind IN ('tote', 'tray-stack', 'flow-through', 'fabric', 'bed', 'pit', 'vessel')),
  area_m2 REAL NOT NULL CHECK (area_m2 BETWEEN 0.001 AND 50),
  depth_m REAL NOT NULL CHECK (depth_m BETWEEN 0.02 AND 3),
  zones INTEGER NOT NULL CHECK (zones BETWEEN 1 AND 12),
  open_base INTEGER NOT NULL CHECK (open_base IN (0, 1)),
  exposure TEXT NOT NULL CHECK (exposure IN ('indoors', 'shade', 'part-sun', 'full-sun')),
  started_on TEXT NOT NULL CHECK (started_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  start_worms_g INTEGER NOT NULL CHECK (start_worms_g BETWEEN 0 AND 500000),
  start_bed_water_g INTEGER NOT NULL CHECK (start_bed_water_g BETWEEN 0 AND 500000),
  check_interval_days INTEGER NOT NULL CHECK (check_interval_days BETWEEN 1 AND 60),
  place_order INTEGER NOT NULL DEFAULT 0 CHECK (place_order BETWEEN 0 AND 9999),
  state TEXT NOT NULL DEFAULT 'active' CHECK (state IN ('active', 'resting', 'retired')),
  note TEXT NOT NULL DEFAULT '' CHECK (length(note) <= 2000),
  revision INTEGER NOT NULL DEFAULT 1 CHECK (revision >= 1),
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX bin_site ON bin (site_id, place_order, code);

CREATE TABLE bin_start_bed (
  bin_id TEXT NOT NULL REFERENCES bin (id) ON DELETE CASCADE,
  seq INTEGER NOT NULL CHECK (seq BETWEEN 0 AND 11),
  material_id TEXT NOT NULL CHECK (length(material_id) BETWEEN 1 AND 80),
  grams INTEGER NOT NULL CHECK (grams BETWEEN 1 AND 500000),
  PRIMARY KEY (bin_id, seq)
) STRICT, WITHOUT ROWID;

-- The catalogue lives in the domain; here are only a programme's own materials.
CREATE TABLE material (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  name TEXT NOT NULL UNIQUE CHECK (length(name) BETWEEN 1 AND 80),
  kind TEXT NOT NULL CHECK (kind IN ('food', 'bedding', 'amendment')),
  moisture_frac_wb REAL NOT NULL CHECK (moisture_frac_wb BETWEEN 0 AND 1),
  carbon_frac_db REAL NOT NULL CHECK (carbon_frac_db BETWEEN 0 AND 1),
  nitrogen_frac_db REAL NOT NULL CHECK (nitrogen_frac_db BETWEEN 0 AND 1),
  bulk_density_kg_m3 REAL NOT NULL CHECK (bulk_density_kg_m3 BETWEEN 5 AND 3000),
  rates_like TEXT NOT NULL CHECK (length(rates_like) BETWEEN 1 AND 80),
  created_at TEXT NOT NULL
) STRICT;

CREATE TABLE container (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  site_id TEXT NOT NULL REFERENCES site (id),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  volume_ml INTEGER NOT NULL CHECK (volume_ml BETWEEN 100 AND 1000000),
  tare_g INTEGER NOT NULL DEFAULT 0 CHECK (tare_g BETWEEN 0 AND 100000),
  full_g INTEGER NOT NULL CHECK (full_g BETWEEN 1 AND 500000),
  archived INTEGER NOT NULL DEFAULT 0 CHECK (archived IN (0, 1)),
  created_at TEXT NOT NULL,
  UNIQUE (site_id, name)
) STRICT;

CREATE TABLE shift_series (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  site_id TEXT NOT NULL REFERENCES site (id),
  created_at TEXT NOT NULL
) STRICT;

CREATE TABLE shift (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  series_id TEXT REFERENCES shift_series (id),
  site_id TEXT NOT NULL REFERENCES site (id),
  title TEXT NOT NULL CHECK (length(title) BETWEEN 1 AND 80),
  local_date TEXT NOT NULL CHECK (local_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  local_time TEXT NOT NULL CHECK (local_time GLOB '[0-2][0-9]:[0-5][0-9]'),
  time_zone TEXT NOT NULL CHECK (length(time_zone) BETWEEN 1 AND 64),
  minutes INTEGER NOT NULL CHECK (minutes BETWEEN 10 AND 720),
  places INTEGER NOT NULL CHECK (places BETWEEN 1 AND 60),
  note TEXT NOT NULL DEFAULT '' CHECK (length(note) <= 2000),
  cancelled_at TEXT,
  revision INTEGER NOT NULL DEFAULT 1 CHECK (revision >= 1),
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX shift_when ON shift (local_date, site_id);
CREATE INDEX shift_of_series ON shift (series_id, local_date);

CREATE TABLE shift_bin (
  shift_id TEXT NOT NULL REFERENCES shift (id) ON DELETE CASCADE,
  bin_id TEXT NOT NULL REFERENCES bin (id),
  PRIMARY KEY (shift_id, bin_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE shift_duty (
  shift_id TEXT NOT NULL REFERENCES shift (id) ON DELETE CASCADE,
  bin_id TEXT NOT NULL REFERENCES bin (id),
  kind TEXT NOT NULL CHECK (kind IN ('feed', 'check', 'loosen', 'water', 'bedding', 'inoculate', 'harvest', 'rest')),
  PRIMARY KEY (shift_id, bin_id, kind)
) STRICT, WITHOUT ROWID;

CREATE TABLE sign_up (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  shift_id TEXT NOT NULL REFERENCES shift (id),
  person_id TEXT NOT NULL REFERENCES person (id),
  taken_at TEXT NOT NULL,
  given_back_at TEXT,
  attended INTEGER CHECK (attended IN (0, 1)),
  minutes INTEGER CHECK (minutes BETWEEN 0 AND 1440)
) STRICT;
CREATE UNIQUE INDEX sign_up_once ON sign_up (shift_id, person_id) WHERE given_back_at IS NULL;
CREATE INDEX sign_up_person ON sign_up (person_id);

-- A second lock behind the conditional insert: nothing may put more people on a shift than it holds.
CREATE TRIGGER sign_up_never_over BEFORE INSERT ON sign_up WHEN NEW.given_back_at IS NULL
BEGIN
  SELECT RAISE(ABORT, 'shift-full')
  WHERE (SELECT count(*) FROM sign_up WHERE shift_id = NEW.shift_id AND given_back_at IS NULL)
     >= (SELECT places FROM shift WHERE id = NEW.shift_id);
END;

-- Everything noted at a bin. kind says which detail table holds the rest.
CREATE TABLE entry (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  kind TEXT NOT NULL CHECK (kind IN ('feeding', 'check', 'harvest', 'care', 'note', 'worms')),
  bin_id TEXT NOT NULL REFERENCES bin (id),
  person_id TEXT REFERENCES person (id),
  shift_id TEXT REFERENCES shift (id),
  happened_at TEXT NOT NULL,
  local_date TEXT NOT NULL CHECK (local_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  device_at TEXT,
  received_at TEXT NOT NULL,
  -- device clock minus server clock [s]; NULL when the client did not say
  skew_s INTEGER,
  note TEXT NOT NULL DEFAULT '' CHECK (length(note) <= 2000),
  revision INTEGER NOT NULL DEFAULT 1 CHECK (revision >= 1),
  undone_at TEXT,
  undone_by TEXT REFERENCES person (id)
) STRICT;
CREATE INDEX entry_bin ON entry (bin_id, happened_at);
CREATE INDEX entry_date ON entry (local_date, kind);
CREATE INDEX entry_person ON entry (person_id);

-- What an entry said before it was corrected or undone: append-only.
CREATE TABLE entry_revision (
  entry_id TEXT NOT NULL REFERENCES entry (id) ON DELETE CASCADE,
  revision INTEGER NOT NULL CHECK (revision >= 1),
  body TEXT NOT NULL CHECK (json_valid(body)),
  replaced_at TEXT NOT NULL,
  replaced_by TEXT REFERENCES person (id),
  PRIMARY KEY (entry_id, revision)
) STRICT, WITHOUT ROWID;

CREATE TABLE feeding (
  entry_id TEXT PRIMARY KEY REFERENCES entry (id) ON DELETE CASCADE,
  zone INTEGER NOT NULL CHECK (zone BETWEEN 1 AND 12),
  bedding_g INTEGER NOT NULL DEFAULT 0 CHECK (bedding_g BETWEEN 0 AND 500000),
  bedding_material_id TEXT CHECK (bedding_material_id IS NULL OR length(bedding_material_id) <= 80),
  water_g INTEGER NOT NULL DEFAULT 0 CHECK (water_g BETWEEN 0 AND 500000)
) STRICT;

CREATE TABLE feeding_item (
  entry_id TEXT NOT NULL REFERENCES feeding (entry_id) ON DELETE CASCADE,
  seq INTEGER NOT NULL CHECK (seq BETWEEN 0 AND 19),
  material_id TEXT NOT NULL CHECK (length(material_id) BETWEEN 1 AND 80),
  grams INTEGER NOT NULL CHECK (grams BETWEEN 1 AND 500000),
  how TEXT NOT NULL CHECK (how IN ('weighed', 'container', 'guessed')),
  preparation TEXT NOT NULL DEFAULT 'chopped' CHECK (preparation IN ('whole', 'chopped', 'frozen', 'pureed')),
  container_id TEXT REFERENCES container (id),
  container_count REAL CHECK (container_count IS NULL OR container_count BETWEEN 0.1 AND 100),
  typed_value REAL CHECK (typed_value IS NULL OR typed_value BETWEEN 0 AND 1000000),
  typed_unit TEXT CHECK (typed_unit IN ('kg', 'g', 'lb', 'oz', 'container')),
  PRIMARY KEY (entry_id, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE bin_check (
  entry_id TEXT PRIMARY KEY REFERENCES entry (id) ON DELETE CASCADE,
  squeeze TEXT CHECK (squeeze IN ('crumbles', 'damp', 'one-two-drops', 'few-drops', 'trickle')),
  smell TEXT CHECK (smell IN ('earthy', 'sour', 'rotten', 'ammonia')),
  bed_temp_c REAL CHECK (bed_temp_c BETWEEN -30 AND 80),
  worms TEXT CHECK (worms IN ('none', 'few', 'some', 'many')),
  ph REAL CHECK (ph BETWEEN 0 AND 14)
) STRICT;

CREATE TABLE check_leftover (
  entry_id TEXT NOT NULL REFERENCES bin_check (entry_id) ON DELETE CASCADE,
  zone INTEGER NOT NULL CHECK (zone BETWEEN 1 AND 12),
  left_over TEXT NOT NULL CHECK (left_over IN ('none', 'little', 'half', 'most', 'all')),
  PRIMARY KEY (entry_id, zone)
) STRICT, WITHOUT ROWID;

CREATE TABLE check_visitor (
  entry_id TEXT NOT NULL REFERENCES bin_check (entry_id) ON DELETE CASCADE,
  visitor TEXT NOT NULL CHECK (length(visitor) BETWEEN 1 AND 40),
  PRIMARY KEY (entry_id, visitor)
) STRICT, WITHOUT ROWID;

CREATE TABLE harvest (
  entry_id TEXT PRIMARY KEY REFERENCES entry (id) ON DELETE CASCADE,
  grams INTEGER NOT NULL CHECK (grams BETWEEN 1 AND 500000),
  how TEXT NOT NULL CHECK (how IN ('weighed', 'container', 'guessed')),
  typed_value REAL CHECK (typed_value IS NULL OR typed_value BETWEEN 0 AND 1000000),
  typed_unit TEXT CHECK (typed_unit IN ('kg', 'g', 'lb', 'oz', 'container')),
  destination TEXT NOT NULL CHECK (destination IN ('plots', 'beds', 'class', 'sale', 'given-away', 'stock', 'curing', 'other')),
  destination_note TEXT NOT NULL DEFAULT '' CHECK (length(destination_note) <= 200)
) STRICT;

-- Client ids already applied, with the fingerprint of what was sent and where the answer is to be found (kept at least 90 days).
CREATE TABLE applied_client_id (
  client_id TEXT PRIMARY KEY CHECK (length(client_id) = 36),
  route TEXT NOT NULL CHECK (length(route) <= 80),
  person_id TEXT REFERENCES person (id),
  body_hash TEXT NOT NULL CHECK (length(body_hash) = 64),
  applied_at TEXT NOT NULL
) STRICT;

CREATE TABLE audit (
  id INTEGER PRIMARY KEY,
  at TEXT NOT NULL,
  person_id TEXT,
  action TEXT NOT NULL CHECK (length(action) BETWEEN 1 AND 80),
  subject TEXT NOT NULL DEFAULT '' CHECK (length(subject) <= 200),
  detail TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(detail)),
  request_id TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX audit_at ON audit (at);
CREATE TRIGGER audit_no_change BEFORE UPDATE ON audit BEGIN SELECT RAISE(ABORT, 'audit is append-only'); END;
