"""Keeping the pieces: custody, heat and handling, preparation, controls.

Use cases are imported from their modules, so that what enters may ask `gate` without
a circle.
"""
