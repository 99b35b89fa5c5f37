-- Spreadsheets that were brought in: what was asked and answered, and what became of each row. The answers are offered for the next file.
CREATE TABLE sheet_import (
  id TEXT PRIMARY KEY CHECK (length(id) = 36),
  kind TEXT NOT NULL CHECK (kind IN ('feedings', 'checks', 'harvests', 'hours')),
  file_name TEXT NOT NULL CHECK (length(file_name) BETWEEN 1 AND 200),
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64),
  -- the cells while they wait to be taken; emptied as soon as they are, or are given up
  cells TEXT NOT NULL CHECK (json_valid(cells)),
  headings TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(headings)),
  answers TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(answers)),
  -- rows with a fault and why, kept after the import
  refused TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(refused)),
  person_id TEXT REFERENCES person (id),
  made_at TEXT NOT NULL,
  done_at TEXT,
  undone_at TEXT,
  rows_skipped INTEGER NOT NULL DEFAULT 0 CHECK (rows_skipped >= 0),
  CHECK (undone_at IS NULL OR done_at IS NOT NULL)
) STRICT;
CREATE INDEX sheet_import_newest ON sheet_import (made_at);

-- What came of a row. print tells the same row in another file, so that nothing comes in twice.
CREATE TABLE sheet_import_row (
  import_id TEXT NOT NULL REFERENCES sheet_import (id) ON DELETE CASCADE,
  row INTEGER NOT NULL CHECK (row >= 1),
  print TEXT NOT NULL CHECK (length(print) = 64),
  entry_id TEXT REFERENCES entry (id) ON DELETE CASCADE,
  sign_up_id TEXT REFERENCES sign_up (id) ON DELETE CASCADE,
  CHECK ((entry_id IS NULL) <> (sign_up_id IS NULL)),
  PRIMARY KEY (import_id, row)
) STRICT, WITHOUT ROWID;
CREATE INDEX sheet_import_row_print ON sheet_import_row (print);
CREATE INDEX sheet_import_row_entry ON sheet_import_row (entry_id);
CREATE INDEX sheet_import_row_sign_up ON sheet_import_row (sign_up_id);
