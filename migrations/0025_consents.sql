-- Consents of people to photos of themselves, who can be seen in a photo, and the photos that a report shows.
ALTER TABLE programme ADD COLUMN photos_of_people INTEGER NOT NULL DEFAULT 0 CHECK (photos_of_people IN (0, 1));

CREATE TABLE consent (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  -- for whom
  person_id TEXT NOT NULL REFERENCES person (id),
  -- who gave it, by their part alone: the name of a guardian or a teacher is never kept
  given_by TEXT NOT NULL CHECK (given_by IN ('self', 'guardian', 'school')),
  purpose TEXT NOT NULL CHECK (purpose IN ('photo', 'report')),
  -- number of the words that were read
  wording INTEGER NOT NULL CHECK (wording >= 1),
  given_at TEXT NOT NULL,
  entered_by TEXT NOT NULL REFERENCES person (id),
  withdrawn_at TEXT,
  withdrawn_by TEXT REFERENCES person (id)
) STRICT;
CREATE UNIQUE INDEX consent_live_once ON consent (person_id, purpose) WHERE withdrawn_at IS NULL;
CREATE INDEX consent_of_person ON consent (person_id, purpose);
CREATE TRIGGER consent_stays_withdrawn BEFORE UPDATE ON consent WHEN OLD.withdrawn_at IS NOT NULL
  BEGIN SELECT RAISE(ABORT, 'a consent that was withdrawn stays so'); END;

-- none: nobody can be seen in it; some: somebody can, and it is shown only while everybody in it consents.
ALTER TABLE photo ADD COLUMN people TEXT NOT NULL DEFAULT 'none' CHECK (people IN ('none', 'some'));
-- Since when somebody is known to be in it.
ALTER TABLE photo ADD COLUMN people_at TEXT;

CREATE TABLE photo_person (
  photo_id TEXT NOT NULL REFERENCES photo (id) ON DELETE CASCADE,
  person_id TEXT NOT NULL REFERENCES person (id),
  PRIMARY KEY (photo_id, person_id)
) STRICT;
CREATE INDEX photo_person_person ON photo_person (person_id);

-- Open pages of a bin are told when one of its photos may be shown no longer.
CREATE TRIGGER photo_changed AFTER UPDATE ON photo BEGIN INSERT INTO change (topic, subject) VALUES ('entry', NEW.bin_id); END;
CREATE TRIGGER consent_changed AFTER UPDATE ON consent BEGIN
  INSERT INTO change (topic, subject)
    SELECT DISTINCT 'entry', p.bin_id FROM photo p JOIN photo_person n ON n.photo_id = p.id WHERE n.person_id = NEW.person_id;
END;

-- The photos of a report, in the order they are shown, each with what it shows in words.
CREATE TABLE season_photo (
  season_id TEXT NOT NULL REFERENCES season (id) ON DELETE CASCADE,
  seq INTEGER NOT NULL CHECK (seq BETWEEN 0 AND 7),
  photo_id TEXT NOT NULL REFERENCES photo (id) ON DELETE CASCADE,
  alt TEXT NOT NULL CHECK (length(alt) BETWEEN 1 AND 200),
  PRIMARY KEY (season_id, seq)
) STRICT;
CREATE INDEX season_photo_photo ON season_photo (photo_id);

-- Of a published report a photo may go, and the report still says that there was one.
CREATE TABLE published_season_photo (
  published_season_id TEXT NOT NULL REFERENCES published_season (id),
  seq INTEGER NOT NULL CHECK (seq BETWEEN 0 AND 7),
  photo_id TEXT REFERENCES photo (id) ON DELETE SET NULL,
  alt TEXT NOT NULL CHECK (length(alt) <= 200),
  PRIMARY KEY (published_season_id, seq)
) STRICT;
CREATE INDEX published_season_photo_photo ON published_season_photo (photo_id);
-- Words about a picture go with it.
CREATE TRIGGER published_photo_gone AFTER UPDATE ON published_season_photo WHEN NEW.photo_id IS NULL AND NEW.alt <> ''
  BEGIN UPDATE published_season_photo SET alt = '' WHERE published_season_id = NEW.published_season_id AND seq = NEW.seq; END;

-- Whether a photo may be shown, worked out at every reading, so that a withdrawal counts at once.
-- waiting: somebody is in it and nobody has said who; hidden: somebody in it does not consent, or the programme shows no people.
-- reports: 1 when everybody in it consents to reports too. hidden_since: since when somebody consents no longer, or it waits for names.
CREATE VIEW photo_showing AS
SELECT p.id AS photo_id,
  CASE
    WHEN p.people = 'none' THEN 'shown'
    WHEN NOT EXISTS (SELECT 1 FROM photo_person n WHERE n.photo_id = p.id) THEN 'waiting'
    WHEN NOT EXISTS (SELECT 1 FROM programme WHERE photos_of_people = 1) THEN 'hidden'
    WHEN EXISTS (SELECT 1 FROM photo_person n WHERE n.photo_id = p.id AND NOT EXISTS (
      SELECT 1 FROM consent c WHERE c.person_id = n.person_id AND c.purpose = 'photo' AND c.withdrawn_at IS NULL)) THEN 'hidden'
    ELSE 'shown'
  END AS state,
  NOT EXISTS (SELECT 1 FROM photo_person n WHERE n.photo_id = p.id AND NOT EXISTS (
    SELECT 1 FROM consent c WHERE c.person_id = n.person_id AND c.purpose = 'report' AND c.withdrawn_at IS NULL)) AS reports,
  CASE
    WHEN p.people = 'none' THEN NULL
    WHEN NOT EXISTS (SELECT 1 FROM photo_person n WHERE n.photo_id = p.id) THEN p.people_at
    ELSE (
      SELECT min(ifnull((SELECT max(c.withdrawn_at) FROM consent c WHERE c.person_id = n.person_id AND c.purpose = 'photo'), ''))
      FROM photo_person n WHERE n.photo_id = p.id AND NOT EXISTS (
        SELECT 1 FROM consent c WHERE c.person_id = n.person_id AND c.purpose = 'photo' AND c.withdrawn_at IS NULL))
  END AS hidden_since
FROM photo p;
