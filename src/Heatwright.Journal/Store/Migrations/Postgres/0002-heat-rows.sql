-- The list of heats, made from the entries, and the sequence that it is made to. Thrown away at will.
CREATE TABLE heatwright.heat_row (
  heat       text COLLATE "C" NOT NULL PRIMARY KEY,
  opened     bigint           NOT NULL, -- ms since 1970, UTC
  stage      text COLLATE "C" NOT NULL,
  grade      text COLLATE "C" NOT NULL,
  unit       text COLLATE "C" NOT NULL,
  shift_date text COLLATE "C" NOT NULL,
  shift      text COLLATE "C" NOT NULL,
  stale      integer          NOT NULL,
  summary    text             NOT NULL
);

CREATE INDEX heat_row_opened ON heatwright.heat_row (opened, heat);
CREATE INDEX heat_row_shift ON heatwright.heat_row (shift_date, shift);
CREATE INDEX heat_row_grade ON heatwright.heat_row (grade, opened);
CREATE INDEX heat_row_stage ON heatwright.heat_row (stage, opened);

-- A clearing counts up, so that rows computed before it are not taken for the whole list after it.
CREATE TABLE heatwright.heat_row_mark (
  one       integer NOT NULL PRIMARY KEY CHECK (one = 1),
  up_to     bigint  NOT NULL,
  clearings bigint  NOT NULL
);

INSERT INTO heatwright.heat_row_mark (one, up_to, clearings) VALUES (1, 0, 0);
