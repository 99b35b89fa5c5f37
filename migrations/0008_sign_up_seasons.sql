-- How places of a term are shared out at a site: first come with a cap at first, or wishes and a draw (criteria C4).
CREATE TABLE sign_up_season (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  site_id TEXT NOT NULL REFERENCES site (id),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  from_date TEXT NOT NULL CHECK (from_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  to_date TEXT NOT NULL CHECK (to_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  way TEXT NOT NULL CHECK (way IN ('first-come', 'draw')),
  -- places can be taken from then on; where they are drawn, wishes are taken until then
  opens_at TEXT NOT NULL,
  -- open places that one person may hold in the first 48 hours
  cap INTEGER NOT NULL DEFAULT 2 CHECK (cap BETWEEN 1 AND 20),
  -- made when the season is, so that nobody can look for a better one; its hash is shown before the draw, itself after
  seed TEXT NOT NULL CHECK (length(seed) = 32),
  drawn_at TEXT,
  -- what was drawn from and what came out, so that anybody can draw again
  draw TEXT CHECK (draw IS NULL OR json_valid(draw)),
  created_at TEXT NOT NULL,
  CHECK (from_date <= to_date),
  CHECK ((drawn_at IS NULL) = (draw IS NULL)),
  CHECK (drawn_at IS NULL OR way = 'draw')
) STRICT;
CREATE INDEX sign_up_season_of ON sign_up_season (site_id, from_date);

CREATE TABLE wish_list (
  season_id TEXT NOT NULL REFERENCES sign_up_season (id) ON DELETE CASCADE,
  person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
  most INTEGER NOT NULL CHECK (most BETWEEN 1 AND 60),
  said_at TEXT NOT NULL,
  PRIMARY KEY (season_id, person_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE wish (
  season_id TEXT NOT NULL,
  person_id TEXT NOT NULL,
  -- 1 = most wanted
  rank INTEGER NOT NULL CHECK (rank BETWEEN 1 AND 100),
  shift_id TEXT NOT NULL REFERENCES shift (id),
  PRIMARY KEY (season_id, person_id, rank),
  UNIQUE (season_id, person_id, shift_id),
  FOREIGN KEY (season_id, person_id) REFERENCES wish_list (season_id, person_id) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

CREATE TRIGGER sign_up_season_added AFTER INSERT ON sign_up_season BEGIN INSERT INTO change (topic, subject) VALUES ('site', NEW.site_id); END;
CREATE TRIGGER sign_up_season_changed AFTER UPDATE ON sign_up_season BEGIN INSERT INTO change (topic, subject) VALUES ('site', NEW.site_id); END;
