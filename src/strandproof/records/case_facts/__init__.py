"""What follows from the records of a case by comparing and adding up alone.

Pure functions over the folded state: no disk, no clock; the moment that something is
asked for arrives as an argument.
"""
