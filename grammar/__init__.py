"""Reads limit sheets: text, tree, checked sheet, and the problems found on the way."""
