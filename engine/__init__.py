"""What the program does with a checked sheet."""
