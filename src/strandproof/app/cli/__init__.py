"""The command line: parses, calls a use case, prints. It computes nothing.

Exit codes: 0 good, 1 refused, 2 misuse. May import `workflow`, `records`,
`errors` only.
"""

from strandproof.app.cli.program import main

__all__ = ["main"]
