"""All disk access: case folders, originals, picture files, written results.

Imports `records`, `quantity` and `errors`. Nothing here computes about copper.
"""
