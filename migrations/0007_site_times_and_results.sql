-- When people can be at a site: one span a weekday, Monday is 1. A site without any is open every day in usual hours.
CREATE TABLE site_opening (
  site_id TEXT NOT NULL REFERENCES site (id) ON DELETE CASCADE,
  weekday INTEGER NOT NULL CHECK (weekday BETWEEN 1 AND 7),
  from_time TEXT NOT NULL CHECK (from_time GLOB '[0-2][0-9]:[0-5][0-9]'),
  to_time TEXT NOT NULL CHECK (to_time GLOB '[0-2][0-9]:[0-5][0-9]'),
  CHECK (from_time < to_time),
  PRIMARY KEY (site_id, weekday)
) STRICT, WITHOUT ROWID;

-- Closed days and school holidays, first and last included.
CREATE TABLE site_closed (
  site_id TEXT NOT NULL REFERENCES site (id) ON DELETE CASCADE,
  from_date TEXT NOT NULL CHECK (from_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  to_date TEXT NOT NULL CHECK (to_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  label TEXT NOT NULL DEFAULT '' CHECK (length(label) <= 80),
  CHECK (from_date <= to_date),
  PRIMARY KEY (site_id, from_date, to_date)
) STRICT, WITHOUT ROWID;

-- How long a duty takes here, where it differs from the usual minutes.
CREATE TABLE site_duty_minutes (
  site_id TEXT NOT NULL REFERENCES site (id) ON DELETE CASCADE,
  kind TEXT NOT NULL CHECK (kind IN ('feed', 'check', 'loosen', 'water', 'bedding', 'inoculate', 'harvest', 'rest')),
  minutes INTEGER NOT NULL CHECK (minutes BETWEEN 0 AND 480),
  PRIMARY KEY (site_id, kind)
) STRICT, WITHOUT ROWID;

-- What became of a duty on a shift.
CREATE TABLE shift_duty_result (
  shift_id TEXT NOT NULL REFERENCES shift (id) ON DELETE CASCADE,
  bin_id TEXT NOT NULL REFERENCES bin (id),
  kind TEXT NOT NULL CHECK (kind IN ('feed', 'check', 'loosen', 'water', 'bedding', 'inoculate', 'harvest', 'rest')),
  result TEXT NOT NULL CHECK (result IN ('done', 'partly', 'missed')),
  note TEXT NOT NULL DEFAULT '' CHECK (length(note) <= 500),
  person_id TEXT REFERENCES person (id),
  said_at TEXT NOT NULL,
  PRIMARY KEY (shift_id, bin_id, kind)
) STRICT, WITHOUT ROWID;
CREATE INDEX shift_duty_result_bin ON shift_duty_result (bin_id, kind);

-- A duty that was put aside as a proposal; it comes back when it changes.
CREATE TABLE dropped_duty (
  bin_id TEXT NOT NULL REFERENCES bin (id) ON DELETE CASCADE,
  kind TEXT NOT NULL CHECK (kind IN ('feed', 'check', 'loosen', 'water', 'bedding', 'inoculate', 'harvest', 'rest')),
  due_on TEXT NOT NULL CHECK (due_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  urgency INTEGER NOT NULL CHECK (urgency BETWEEN 1 AND 3),
  person_id TEXT REFERENCES person (id),
  dropped_at TEXT NOT NULL,
  PRIMARY KEY (bin_id, kind)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER site_opening_added AFTER INSERT ON site_opening BEGIN INSERT INTO change (topic, subject) VALUES ('site', NEW.site_id); END;
CREATE TRIGGER site_closed_added AFTER INSERT ON site_closed BEGIN INSERT INTO change (topic, subject) VALUES ('site', NEW.site_id); END;
CREATE TRIGGER site_duty_minutes_added AFTER INSERT ON site_duty_minutes BEGIN INSERT INTO change (topic, subject) VALUES ('site', NEW.site_id); END;
CREATE TRIGGER shift_duty_result_added AFTER INSERT ON shift_duty_result BEGIN INSERT INTO change (topic, subject) VALUES ('shift', NEW.shift_id); END;
CREATE TRIGGER shift_duty_result_changed AFTER UPDATE ON shift_duty_result BEGIN INSERT INTO change (topic, subject) VALUES ('shift', NEW.shift_id); END;
CREATE TRIGGER shift_duty_result_gone AFTER DELETE ON shift_duty_result BEGIN INSERT INTO change (topic, subject) VALUES ('shift', OLD.shift_id); END;
