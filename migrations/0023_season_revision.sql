-- Whoever changes a season says which writing of it they read, so that nobody writes over words that they have not seen.
ALTER TABLE season ADD COLUMN revision INTEGER NOT NULL DEFAULT 1;
