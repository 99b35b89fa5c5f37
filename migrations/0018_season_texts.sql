-- What a coordinator says to the sections of a season's report: paragraphs by section, as JSON. A published report keeps its own.
ALTER TABLE season ADD COLUMN texts TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(texts));
ALTER TABLE published_season ADD COLUMN texts TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(texts));
