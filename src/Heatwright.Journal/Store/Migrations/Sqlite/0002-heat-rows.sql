-- The list of heats, made from the entries, and the sequence that it is made to. Thrown away at will.
CREATE TABLE heat_row (
  heat       TEXT    NOT NULL PRIMARY KEY,
  opened     INTEGER NOT NULL, -- ms since 1970, UTC
  stage      TEXT    NOT NULL,
  grade      TEXT    NOT NULL,
  unit       TEXT    NOT NULL,
  shift_date TEXT    NOT NULL,
  shift      TEXT    NOT NULL,
  stale      INTEGER NOT NULL,
  summary    TEXT    NOT NULL
) STRICT;

CREATE INDEX heat_row_opened ON heat_row (opened, heat);
CREATE INDEX heat_row_shift ON heat_row (shift_date, shift);
CREATE INDEX heat_row_grade ON heat_row (grade, opened);
CREATE INDEX heat_row_stage ON heat_row (stage, opened);

-- A clearing counts up, so that rows computed before it are not taken for the whole list after it.
CREATE TABLE heat_row_mark (
  one       INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
  up_to     INTEGER NOT NULL,
  clearings INTEGER NOT NULL
) STRICT;

INSERT INTO heat_row_mark (one, up_to, clearings) VALUES (1, 0, 0);
