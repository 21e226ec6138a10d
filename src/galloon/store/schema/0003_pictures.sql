-- Pictures of laces, one repeat each, by a name that follows from what they show.
CREATE TABLE picture (
  name TEXT PRIMARY KEY CHECK (length(name) = 32),
  png BLOB NOT NULL CHECK (length(png) BETWEEN 1 AND 3000000)
) STRICT;
