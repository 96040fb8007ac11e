"""Resolution: of all the files of a type, what holds for one airframe on one day, as one sheet."""
