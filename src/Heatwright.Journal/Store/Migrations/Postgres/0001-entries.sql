-- The record. Text compares by bytes, as SQLite's does.
CREATE TABLE heatwright.entry (
  sequence       bigint           PRIMARY KEY CHECK (sequence > 0),
  id             uuid             NOT NULL UNIQUE,
  heat           text COLLATE "C" NOT NULL,
  heat_version   bigint           NOT NULL CHECK (heat_version > 0),
  kind           text COLLATE "C" NOT NULL,
  schema_version integer          NOT NULL,
  source_time    bigint           NOT NULL, -- ms since 1970, UTC
  arrival_time   bigint           NOT NULL, -- ms since 1970, UTC
  actor          text             NOT NULL,
  reason         text             NOT NULL,
  hash           bytea            NOT NULL CHECK (octet_length(hash) = 32),
  body           bytea            NOT NULL,
  UNIQUE (heat, heat_version)
);

-- Packed signals do not compress again.
ALTER TABLE heatwright.entry ALTER COLUMN body SET STORAGE EXTERNAL;

CREATE FUNCTION heatwright.refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'entries are never changed or removed' USING ERRCODE = 'restrict_violation';
END $$;

CREATE TRIGGER entry_is_never_changed_or_removed BEFORE UPDATE OR DELETE ON heatwright.entry
  FOR EACH ROW EXECUTE FUNCTION heatwright.refuse_change();

CREATE TRIGGER entry_is_never_emptied BEFORE TRUNCATE ON heatwright.entry
  FOR EACH STATEMENT EXECUTE FUNCTION heatwright.refuse_change();
