"""The Quillmere Flying Group: invented types, airframes and bookings."""
