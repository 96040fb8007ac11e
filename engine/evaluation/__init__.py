"""Verdicts: exact, with every value on the way."""
