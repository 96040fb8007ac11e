"""The figures that generated code refers to by name: rows of tables, corners of envelopes, fixed functions."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(slots=True)
class Data:
    """What stands beside the code, each piece once."""

    pieces: dict[str, object] = field(default_factory=dict)
    _names: dict[object, str] = field(default_factory=dict)

    def add(self, piece: object) -> str:
        """The name of a piece of data."""
        if piece not in self._names:
            name = f"D{len(self._names)}"
            self._names[piece] = name
            self.pieces[name] = piece
        return self._names[piece]

    def function(self, name: str, of: object) -> str:
        """The name of one of this package's own functions."""
        self.pieces[name] = of
        return name
