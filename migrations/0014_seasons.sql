-- Named spans of days by which a report counts. site_id NULL: the whole programme.
CREATE TABLE season (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  site_id TEXT REFERENCES site (id),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  from_date TEXT NOT NULL CHECK (from_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  to_date TEXT NOT NULL CHECK (to_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  created_at TEXT NOT NULL,
  CHECK (from_date <= to_date)
) STRICT;
CREATE UNIQUE INDEX season_once ON season (name, ifnull(site_id, ''));
