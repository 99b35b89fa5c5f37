-- What somebody should know. At most one for each person, kind, shift and occasion, whatever restarts or clocks do.
CREATE TABLE message (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
  kind TEXT NOT NULL CHECK (length(kind) BETWEEN 1 AND 40),
  shift_id TEXT REFERENCES shift (id) ON DELETE CASCADE,
  -- which time of several, such as the number of the offer; '' where there can be one only
  occasion TEXT NOT NULL DEFAULT '' CHECK (length(occasion) <= 80),
  -- what the words are filled with: ids, dates and counts, never a name
  facts TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(facts)),
  urgent INTEGER NOT NULL DEFAULT 0 CHECK (urgent IN (0, 1)),
  made_at TEXT NOT NULL,
  -- afterwards it is of no use to anybody; NULL: keeps its use
  good_until TEXT,
  read_at TEXT,
  -- what it says is no longer so
  over_at TEXT
) STRICT;
CREATE UNIQUE INDEX message_once ON message (person_id, kind, ifnull(shift_id, ''), occasion);
CREATE INDEX message_newest ON message (person_id, made_at);
CREATE INDEX message_shift ON message (shift_id, kind);

-- How somebody wants to be told; no row: as the defaults say.
CREATE TABLE message_setting (
  person_id TEXT PRIMARY KEY REFERENCES person (id) ON DELETE CASCADE,
  remind_day INTEGER NOT NULL DEFAULT 1 CHECK (remind_day IN (0, 1)),
  remind_hours INTEGER NOT NULL DEFAULT 1 CHECK (remind_hours IN (0, 1)),
  digest INTEGER NOT NULL DEFAULT 1 CHECK (digest IN (0, 1)),
  -- local times; the same twice: no quiet hours
  quiet_from TEXT NOT NULL DEFAULT '21:00' CHECK (quiet_from GLOB '[0-2][0-9]:[0-5][0-9]'),
  quiet_to TEXT NOT NULL DEFAULT '07:00' CHECK (quiet_to GLOB '[0-2][0-9]:[0-5][0-9]'),
  mail INTEGER NOT NULL DEFAULT 0 CHECK (mail IN (0, 1)),
  address TEXT CHECK (address IS NULL OR length(address) BETWEEN 3 AND 254),
  confirmed_at TEXT,
  code_hash TEXT CHECK (code_hash IS NULL OR length(code_hash) = 64),
  code_until TEXT,
  code_tries INTEGER NOT NULL DEFAULT 0 CHECK (code_tries >= 0),
  CHECK (mail = 0 OR confirmed_at IS NOT NULL)
) STRICT, WITHOUT ROWID;

-- Mail on its way. sending: handed to the mail server just now; found so after a restart, it counts as failed and is not sent twice.
CREATE TABLE mail (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  kind TEXT NOT NULL CHECK (kind IN ('message', 'code', 'test')),
  person_id TEXT NOT NULL REFERENCES person (id) ON DELETE CASCADE,
  message_id TEXT UNIQUE REFERENCES message (id) ON DELETE CASCADE,
  address TEXT NOT NULL CHECK (length(address) BETWEEN 3 AND 254),
  urgent INTEGER NOT NULL DEFAULT 0 CHECK (urgent IN (0, 1)),
  state TEXT NOT NULL DEFAULT 'waiting' CHECK (state IN ('waiting', 'sending', 'handed-over', 'failed', 'dropped')),
  tries INTEGER NOT NULL DEFAULT 0 CHECK (tries >= 0),
  made_at TEXT NOT NULL,
  next_try_at TEXT NOT NULL,
  -- not sent later than that
  good_until TEXT NOT NULL,
  done_at TEXT,
  last_error TEXT NOT NULL DEFAULT '' CHECK (length(last_error) <= 300),
  -- of the address in the mail with which a place is given back or mail is stopped
  reply_hash TEXT UNIQUE CHECK (reply_hash IS NULL OR length(reply_hash) = 64),
  -- the six digits of a code, gone as soon as they are sent
  secret TEXT CHECK (secret IS NULL OR length(secret) <= 20),
  CHECK ((kind = 'message') = (message_id IS NOT NULL))
) STRICT;
CREATE INDEX mail_due ON mail (next_try_at) WHERE state = 'waiting';
CREATE INDEX mail_done ON mail (state, done_at);

-- What a calendar was last told of a shift, or a feed as a whole: the number rises whenever that changes, whoever changed it.
CREATE TABLE calendar_stamp (
  subject TEXT PRIMARY KEY CHECK (length(subject) BETWEEN 1 AND 80),
  content_hash TEXT NOT NULL CHECK (length(content_hash) = 64),
  sequence INTEGER NOT NULL CHECK (sequence >= 0),
  changed_at TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- Open pages are told of messages too. The list of topics cannot be changed in place; its triggers find the new table by its name.
CREATE TABLE change_new (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  topic TEXT NOT NULL CHECK (topic IN ('entry', 'bin', 'site', 'shift', 'stuff', 'people', 'programme', 'message')),
  subject TEXT NOT NULL
) STRICT;
INSERT INTO change_new SELECT id, topic, subject FROM change;
DELETE FROM sqlite_sequence WHERE name = 'change_new';
INSERT INTO sqlite_sequence (name, seq) SELECT 'change_new', seq FROM sqlite_sequence WHERE name = 'change';
DROP TABLE change;
PRAGMA legacy_alter_table = ON;
ALTER TABLE change_new RENAME TO change;
PRAGMA legacy_alter_table = OFF;

CREATE TRIGGER message_added AFTER INSERT ON message BEGIN INSERT INTO change (topic, subject) VALUES ('message', NEW.person_id); END;
CREATE TRIGGER message_changed AFTER UPDATE ON message BEGIN INSERT INTO change (topic, subject) VALUES ('message', NEW.person_id); END;
