-- The record. The body stands last: what comes after a large value is only reached by reading over it.
CREATE TABLE entry (
  sequence       INTEGER PRIMARY KEY CHECK (sequence > 0),
  id             BLOB    NOT NULL UNIQUE CHECK (length(id) = 16),
  heat           TEXT    NOT NULL,
  heat_version   INTEGER NOT NULL CHECK (heat_version > 0),
  kind           TEXT    NOT NULL,
  schema_version INTEGER NOT NULL,
  source_time    INTEGER NOT NULL, -- ms since 1970, UTC
  arrival_time   INTEGER NOT NULL, -- ms since 1970, UTC
  actor          TEXT    NOT NULL,
  reason         TEXT    NOT NULL,
  hash           BLOB    NOT NULL CHECK (length(hash) = 32),
  body           BLOB    NOT NULL,
  UNIQUE (heat, heat_version)
) STRICT;

CREATE TRIGGER entry_is_never_changed BEFORE UPDATE ON entry
BEGIN
  SELECT RAISE(ABORT, 'entries are never changed');
END;

CREATE TRIGGER entry_is_never_removed BEFORE DELETE ON entry
BEGIN
  SELECT RAISE(ABORT, 'entries are never removed');
END;

-- INSERT OR REPLACE removes rows without asking the trigger above; here it is refused.
CREATE TRIGGER entry_is_only_appended BEFORE INSERT ON entry
WHEN NEW.sequence <> (SELECT coalesce(max(sequence), 0) + 1 FROM entry)
  OR EXISTS (SELECT 1 FROM entry WHERE id = NEW.id)
  OR EXISTS (SELECT 1 FROM entry WHERE heat = NEW.heat AND heat_version = NEW.heat_version)
BEGIN
  SELECT RAISE(ABORT, 'entries are only appended');
END;
