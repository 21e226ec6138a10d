CREATE TABLE migration (
  number INTEGER PRIMARY KEY,
  name TEXT NOT NULL,
  applied TEXT NOT NULL
) STRICT;

-- What she owns and knows. `data` holds brief data in millimetres; a cloth's length on hand has a column of its own.
CREATE TABLE thing (
  id INTEGER PRIMARY KEY,
  kind TEXT NOT NULL CHECK (kind IN ('wearer', 'cloth', 'elastic', 'block', 'brief', 'leftover', 'drawing')),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
  data TEXT NOT NULL CHECK (json_valid(data)),
  on_hand REAL CHECK (on_hand IS NULL OR (kind = 'cloth' AND on_hand >= 0)),
  cloth INTEGER REFERENCES thing (id),
  UNIQUE (kind, name),
  CHECK ((kind = 'leftover') = (cloth IS NOT NULL))
) STRICT;

CREATE INDEX thing_cloth ON thing (cloth);
