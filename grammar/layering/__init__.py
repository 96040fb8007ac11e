"""Layers: how supplements, orders and permits change the statements of a sheet, before anything is checked."""
