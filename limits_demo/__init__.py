"""The Quillmere Flying Group: invented aircraft types, airframes and bookings to try the program on.

Nothing here is a real aircraft, and none of its figures may be used to load one. It is the demonstration of an
aid; for a real flight the approved flight manual, placards, local rules and the pilot in command decide.
"""

from limits_demo.airframe import Airframe, Facts, Weighing, fleet
from limits_demo.booking import Booking, bookings
from limits_demo.files import layer_names, layer_text, sheet_names, sheet_text

__all__ = [
    "Airframe",
    "Booking",
    "Facts",
    "Weighing",
    "bookings",
    "fleet",
    "layer_names",
    "layer_text",
    "sheet_names",
    "sheet_text",
]
