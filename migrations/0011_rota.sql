-- A run of filling gaps, and what came of it. It names people by id only.
CREATE TABLE rota_run (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  made_by TEXT REFERENCES person (id),
  made_at TEXT NOT NULL,
  from_date TEXT NOT NULL CHECK (from_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  to_date TEXT NOT NULL CHECK (to_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  -- none: every site
  site_ids TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(site_ids)),
  seconds INTEGER NOT NULL CHECK (seconds BETWEEN 1 AND 60),
  status TEXT NOT NULL DEFAULT 'working' CHECK (status IN ('working', 'optimal', 'best-found', 'infeasible', 'stopped')),
  ended_at TEXT,
  -- gaps, conflicts, fairness and how far each stage was proven
  report TEXT CHECK (report IS NULL OR json_valid(report)),
  CHECK (from_date <= to_date),
  CHECK ((status = 'working') = (ended_at IS NULL)),
  CHECK ((status IN ('working', 'stopped')) = (report IS NULL))
) STRICT;
CREATE INDEX rota_run_made ON rota_run (made_at);

-- Somebody proposed for a place. Sent to them it is an invitation; they answer, or it runs out.
CREATE TABLE rota_proposal (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  run_id TEXT NOT NULL REFERENCES rota_run (id) ON DELETE CASCADE,
  shift_id TEXT NOT NULL REFERENCES shift (id),
  person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
  skill TEXT CHECK (skill IN ('lifting', 'harvest', 'keys', 'guiding')),
  -- why this person, for coordinators only
  reason TEXT NOT NULL CHECK (json_valid(reason)),
  state TEXT NOT NULL DEFAULT 'proposed' CHECK (state IN ('proposed', 'replaced', 'invited', 'accepted', 'declined', 'withdrawn')),
  invited_at TEXT,
  good_until TEXT,
  answered_at TEXT,
  UNIQUE (run_id, shift_id, person_id),
  CHECK ((state IN ('proposed', 'replaced')) = (invited_at IS NULL)),
  CHECK ((invited_at IS NULL) = (good_until IS NULL)),
  CHECK ((state IN ('accepted', 'declined', 'withdrawn')) = (answered_at IS NOT NULL))
) STRICT;
CREATE INDEX rota_proposal_shift ON rota_proposal (shift_id, state);
CREATE INDEX rota_proposal_person ON rota_proposal (person_id, state);

CREATE TRIGGER person_erased_rota AFTER UPDATE OF erased_at ON person WHEN NEW.erased_at IS NOT NULL
BEGIN
  DELETE FROM rota_proposal WHERE person_id = NEW.id;
END;

CREATE TRIGGER rota_run_changed AFTER UPDATE ON rota_run BEGIN INSERT INTO change (topic, subject) VALUES ('shift', NEW.id); END;
CREATE TRIGGER rota_proposal_changed AFTER UPDATE ON rota_proposal BEGIN INSERT INTO change (topic, subject) VALUES ('shift', NEW.shift_id); END;
