"""Reading: the text of a file -> its syntax tree and the problems of how it is written."""

from grammar.reading.reading import Reading, read_file

__all__ = ["Reading", "read_file"]
