"""The demonstration: invented cases, from a claim to a verified report.

`run_demo` tells one of them into a new folder. What is told stands in
`story_h7` and `story_h0`; nobody measured it, and its pictures are synthetic.
"""

from strandproof.app.workflow.demo.running import CASES, DemoOutcome, run_demo

__all__ = ["CASES", "DemoOutcome", "run_demo"]
