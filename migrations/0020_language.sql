-- The language in which somebody is written to: mails, calendar, texts to copy. NULL: they never chose one, and it is the programme's.
ALTER TABLE message_setting ADD COLUMN language TEXT CHECK (language IS NULL OR length(language) = 2);
