"""Answers made readable: reasons, sentences, text, JSON."""
