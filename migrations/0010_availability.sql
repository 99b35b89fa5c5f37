-- When somebody can come: spans of the week in local time of the site, Monday is 1. Nobody's row: any time.
CREATE TABLE person_time (
  person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
  weekday INTEGER NOT NULL CHECK (weekday BETWEEN 1 AND 7),
  from_time TEXT NOT NULL CHECK (from_time GLOB '[0-2][0-9]:[0-5][0-9]'),
  to_time TEXT NOT NULL CHECK (to_time GLOB '[0-2][0-9]:[0-5][0-9]'),
  liking TEXT NOT NULL CHECK (liking IN ('glad', 'can', 'if-needed')),
  CHECK (from_time < to_time),
  PRIMARY KEY (person_id, weekday, from_time)
) STRICT, WITHOUT ROWID;

-- Days away, first and last included. Nobody is asked why.
CREATE TABLE person_away (
  person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
  from_date TEXT NOT NULL CHECK (from_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  to_date TEXT NOT NULL CHECK (to_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  CHECK (from_date <= to_date),
  PRIMARY KEY (person_id, from_date, to_date)
) STRICT, WITHOUT ROWID;

CREATE TABLE person_skill (
  person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
  skill TEXT NOT NULL CHECK (skill IN ('lifting', 'harvest', 'keys', 'guiding')),
  PRIMARY KEY (person_id, skill)
) STRICT, WITHOUT ROWID;

-- Sites where somebody would come; none: all of theirs.
CREATE TABLE person_site_wish (
  person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
  site_id TEXT NOT NULL REFERENCES site (id) ON DELETE CASCADE,
  PRIMARY KEY (person_id, site_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE person_wish (
  person_id TEXT PRIMARY KEY REFERENCES person (id) ON DELETE CASCADE,
  -- shifts wished for; NULL: not said
  wish_count INTEGER CHECK (wish_count BETWEEN 0 AND 14),
  wish_per TEXT NOT NULL DEFAULT 'month' CHECK (wish_per IN ('week', 'month')),
  -- most places; NULL: no limit
  cap_per_week INTEGER CHECK (cap_per_week BETWEEN 0 AND 14),
  cap_per_day INTEGER CHECK (cap_per_day BETWEEN 0 AND 5),
  said_at TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- Of the places of a shift, how many ask for a skill.
CREATE TABLE shift_need (
  shift_id TEXT NOT NULL REFERENCES shift (id) ON DELETE CASCADE,
  skill TEXT NOT NULL CHECK (skill IN ('lifting', 'harvest', 'keys', 'guiding')),
  places INTEGER NOT NULL CHECK (places BETWEEN 1 AND 60),
  PRIMARY KEY (shift_id, skill)
) STRICT, WITHOUT ROWID;

-- Whoever is erased leaves none of this.
CREATE TRIGGER person_erased_availability AFTER UPDATE OF erased_at ON person WHEN NEW.erased_at IS NOT NULL
BEGIN
  DELETE FROM person_time WHERE person_id = NEW.id;
  DELETE FROM person_away WHERE person_id = NEW.id;
  DELETE FROM person_skill WHERE person_id = NEW.id;
  DELETE FROM person_site_wish WHERE person_id = NEW.id;
  DELETE FROM person_wish WHERE person_id = NEW.id;
END;

CREATE TRIGGER shift_need_added AFTER INSERT ON shift_need BEGIN INSERT INTO change (topic, subject) VALUES ('shift', NEW.shift_id); END;
CREATE TRIGGER shift_need_gone AFTER DELETE ON shift_need BEGIN INSERT INTO change (topic, subject) VALUES ('shift', OLD.shift_id); END;
