-- Old rows are looked for every few minutes; without these each look would read the two longest tables from end to end.
CREATE INDEX applied_client_id_at ON applied_client_id (applied_at);
CREATE INDEX sign_in_session_expires ON sign_in_session (expires_at);
