-- Who waits for a place on a full shift, in the order of seq, and what became of it.
CREATE TABLE waiting (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE CHECK (length(id) = 36),
  shift_id TEXT NOT NULL REFERENCES shift (id),
  person_id TEXT NOT NULL REFERENCES person (id),
  joined_at TEXT NOT NULL,
  offered_at TEXT,
  -- a place is kept until then
  offer_until TEXT,
  ended_at TEXT,
  ended_how TEXT CHECK (ended_how IN ('took', 'left', 'lapsed', 'shift')),
  CHECK ((offered_at IS NULL) = (offer_until IS NULL)),
  CHECK ((ended_at IS NULL) = (ended_how IS NULL))
) STRICT;
CREATE UNIQUE INDEX waiting_once ON waiting (shift_id, person_id) WHERE ended_at IS NULL;
CREATE INDEX waiting_open ON waiting (shift_id, seq) WHERE ended_at IS NULL;

-- Open pages are told of these too.
CREATE TRIGGER waiting_added AFTER INSERT ON waiting BEGIN INSERT INTO change (topic, subject) VALUES ('shift', NEW.shift_id); END;
CREATE TRIGGER waiting_changed AFTER UPDATE ON waiting BEGIN INSERT INTO change (topic, subject) VALUES ('shift', NEW.shift_id); END;
CREATE TRIGGER bedding_move_added AFTER INSERT ON bedding_move BEGIN INSERT INTO change (topic, subject) VALUES ('stuff', NEW.id); END;
CREATE TRIGGER material_figure_added AFTER INSERT ON material_figure BEGIN INSERT INTO change (topic, subject) VALUES ('stuff', NEW.material_id); END;
CREATE TRIGGER material_figure_changed AFTER UPDATE ON material_figure BEGIN INSERT INTO change (topic, subject) VALUES ('stuff', NEW.material_id); END;
CREATE TRIGGER air_reading_added AFTER INSERT ON air_reading BEGIN INSERT INTO change (topic, subject) VALUES ('site', NEW.site_id); END;
CREATE TRIGGER air_reading_changed AFTER UPDATE ON air_reading BEGIN INSERT INTO change (topic, subject) VALUES ('site', NEW.site_id); END;
