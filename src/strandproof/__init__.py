"""Strandproof: from a cable maker's claim to a finding that anyone can check.

The parts, from the bottom up: `errors`, `quantity`, `tables` and `records`,
the measuring parts `micrograph` and `grainsize`, then `storage` and `report`,
and `app` on top. Each imports only from parts below it.
"""

from importlib.metadata import version

__version__ = version("strandproof")

__all__ = ["__version__"]
