"""The compiled way to an exact answer: a sheet as straight-line Python over whole numbers."""
