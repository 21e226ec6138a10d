-- A pattern as it was made: the whole brief, spelled out, and the program that drew it.
CREATE TABLE version (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  number INTEGER NOT NULL CHECK (number >= 1),
  data TEXT NOT NULL CHECK (json_valid(data)),
  digest TEXT NOT NULL,
  outlines TEXT NOT NULL,
  program TEXT NOT NULL,
  made TEXT NOT NULL,
  UNIQUE (name, number)
) STRICT;

-- `mark` tells a booking apart on every machine that it is carried to.
CREATE TABLE booking (
  id INTEGER PRIMARY KEY,
  mark TEXT NOT NULL UNIQUE CHECK (length(mark) = 32),
  title TEXT NOT NULL,
  version INTEGER REFERENCES version (id),
  booked TEXT NOT NULL,
  undone TEXT
) STRICT;

-- What one booking took of one cloth (mm; `taken` is 0 where the length on hand was not known), and the plan.
CREATE TABLE taking (
  booking INTEGER NOT NULL REFERENCES booking (id) ON DELETE CASCADE,
  cloth INTEGER REFERENCES thing (id) ON DELETE SET NULL,
  name TEXT NOT NULL,
  need REAL NOT NULL CHECK (need > 0),
  taken REAL NOT NULL CHECK (taken >= 0),
  plan TEXT NOT NULL CHECK (json_valid(plan)),
  PRIMARY KEY (booking, name)
) STRICT;

-- Leftovers that a booking put on the shelf, with their data as they were then.
CREATE TABLE remnant (
  booking INTEGER NOT NULL REFERENCES booking (id) ON DELETE CASCADE,
  name TEXT NOT NULL,
  data TEXT NOT NULL CHECK (json_valid(data)),
  thing INTEGER REFERENCES thing (id) ON DELETE SET NULL,
  PRIMARY KEY (booking, name)
) STRICT;

CREATE INDEX booking_version ON booking (version);
CREATE INDEX taking_cloth ON taking (cloth);
CREATE INDEX remnant_thing ON remnant (thing);
