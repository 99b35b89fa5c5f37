-- What the model expected of castings in a bin on the evening before a harvest, when it had not seen its weight. Written once.
CREATE TABLE harvest_expected (
  entry_id TEXT PRIMARY KEY REFERENCES entry (id) ON DELETE CASCADE,
  low_g    INTEGER NOT NULL CHECK (low_g >= 0),
  mid_g    INTEGER NOT NULL CHECK (mid_g >= low_g),
  high_g   INTEGER NOT NULL CHECK (high_g >= mid_g)
) STRICT, WITHOUT ROWID;
