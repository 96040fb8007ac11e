"""The formatter: one canonical layout of a sheet, which changes nothing of what it says."""

from grammar.tidy.tidying import tidied, tidy

__all__ = ["tidied", "tidy"]
