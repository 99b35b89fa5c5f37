-- Reports that were published: they keep their numbers whatever is corrected afterwards. site_id NULL: the whole programme.
CREATE TABLE published_season (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  site_id TEXT REFERENCES site (id),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  from_date TEXT NOT NULL CHECK (from_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  to_date TEXT NOT NULL CHECK (to_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  -- the season as it was answered then; no names are in it
  body TEXT NOT NULL CHECK (json_valid(body)),
  published_at TEXT NOT NULL,
  CHECK (from_date <= to_date)
) STRICT;
CREATE INDEX published_season_newest ON published_season (published_at);
CREATE TRIGGER published_season_no_change BEFORE UPDATE ON published_season BEGIN SELECT RAISE(ABORT, 'a published season keeps its numbers'); END;
