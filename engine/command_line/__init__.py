"""The commands; each a thin door onto another room."""
