-- Grown-ups whom the coordinator has cleared count for the adult rule (criteria C19); nobody else does.
ALTER TABLE person ADD COLUMN cleared_at TEXT CHECK (cleared_at IS NULL OR is_adult = 1);

-- Pupils come in groups with places of their own; one adult instead of two only with a written reason.
ALTER TABLE shift ADD COLUMN pupil_places INTEGER NOT NULL DEFAULT 0 CHECK (pupil_places BETWEEN 0 AND 60);
ALTER TABLE shift ADD COLUMN least_adults INTEGER NOT NULL DEFAULT 2 CHECK (least_adults IN (1, 2));
ALTER TABLE shift ADD COLUMN least_adults_reason TEXT NOT NULL DEFAULT ''
  CHECK (length(least_adults_reason) <= 500 AND (least_adults = 2 OR length(trim(least_adults_reason)) >= 10));

CREATE TABLE shift_group (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  shift_id TEXT NOT NULL REFERENCES shift (id),
  class_id TEXT NOT NULL REFERENCES class (id),
  pupils INTEGER NOT NULL CHECK (pupils BETWEEN 1 AND 60),
  made_by TEXT REFERENCES person (id),
  made_at TEXT NOT NULL,
  checked_in_at TEXT,
  ended_at TEXT
) STRICT;
CREATE UNIQUE INDEX shift_group_once ON shift_group (shift_id, class_id) WHERE ended_at IS NULL;

-- Which pupils, where they were named; gone with the pupil.
CREATE TABLE shift_group_pupil (
  group_id TEXT NOT NULL REFERENCES shift_group (id) ON DELETE CASCADE,
  person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
  PRIMARY KEY (group_id, person_id)
) STRICT, WITHOUT ROWID;

-- A second lock behind the conditional insert, as for places.
CREATE TRIGGER shift_group_never_over BEFORE INSERT ON shift_group WHEN NEW.ended_at IS NULL
BEGIN
  SELECT RAISE(ABORT, 'shift-full')
  WHERE (SELECT ifnull(sum(pupils), 0) FROM shift_group WHERE shift_id = NEW.shift_id AND ended_at IS NULL) + NEW.pupils
      > (SELECT pupil_places FROM shift WHERE id = NEW.shift_id);
END;

-- A place that somebody would hand over, to one person or to anybody; they stay responsible until it is accepted.
CREATE TABLE swap (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  sign_up_id TEXT NOT NULL REFERENCES sign_up (id),
  shift_id TEXT NOT NULL REFERENCES shift (id),
  from_person_id TEXT NOT NULL REFERENCES person (id),
  -- NULL: anybody
  to_person_id TEXT REFERENCES person (id),
  -- shifts that would be taken in return; none: a hand-over
  in_return TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(in_return)),
  made_at TEXT NOT NULL,
  ended_at TEXT,
  ended_how TEXT CHECK (ended_how IN ('accepted', 'withdrawn', 'declined', 'gone')),
  accepted_by TEXT REFERENCES person (id),
  CHECK ((ended_at IS NULL) = (ended_how IS NULL)),
  CHECK ((ended_how IS 'accepted') = (accepted_by IS NOT NULL))
) STRICT;
CREATE UNIQUE INDEX swap_once ON swap (sign_up_id) WHERE ended_at IS NULL;
CREATE INDEX swap_of_shift ON swap (shift_id) WHERE ended_at IS NULL;

-- A place that was given back some other way is no longer on offer.
CREATE TRIGGER swap_gone AFTER UPDATE OF given_back_at ON sign_up WHEN NEW.given_back_at IS NOT NULL
BEGIN
  UPDATE swap SET ended_at = NEW.given_back_at, ended_how = 'gone' WHERE sign_up_id = NEW.id AND ended_at IS NULL;
END;

CREATE TRIGGER shift_group_added AFTER INSERT ON shift_group BEGIN INSERT INTO change (topic, subject) VALUES ('shift', NEW.shift_id); END;
CREATE TRIGGER shift_group_changed AFTER UPDATE ON shift_group BEGIN INSERT INTO change (topic, subject) VALUES ('shift', NEW.shift_id); END;
CREATE TRIGGER swap_added AFTER INSERT ON swap BEGIN INSERT INTO change (topic, subject) VALUES ('shift', NEW.shift_id); END;
CREATE TRIGGER swap_changed AFTER UPDATE ON swap BEGIN INSERT INTO change (topic, subject) VALUES ('shift', NEW.shift_id); END;
