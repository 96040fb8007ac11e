"""From text to tree, statement by statement."""
