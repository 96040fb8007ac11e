"""From tree to checked sheet: one module a concern."""
