-- Factors by which climate gases are counted, as a coordinator confirmed them; no row: they are left out. Published reports keep their own.
CREATE TABLE climate_factors (
  one INTEGER PRIMARY KEY DEFAULT 1 CHECK (one = 1),
  factors TEXT NOT NULL CHECK (json_valid(factors)),
  confirmed_at TEXT NOT NULL
) STRICT;
