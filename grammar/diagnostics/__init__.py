"""Problems in sheets: what they are, their words, and how they are shown."""
