-- Which session a code was made in: whoever erases themselves shows who they are by one that was not made on the same device.
ALTER TABLE device_code ADD COLUMN session_id TEXT CHECK (session_id IS NULL OR length(session_id) = 36);
