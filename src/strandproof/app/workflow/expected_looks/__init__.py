"""What each usual hypothesis would look like, at the scale of the user's picture.

Every drawing is synthetic and says so on its face; hypotheses without a look of their
own say that instead. A drawing tells what to look for, and is evidence of nothing.
"""

from strandproof.app.workflow.expected_looks.drawing import (
    LooksAsked,
    WrittenLooks,
    draw_expected_looks,
)

__all__ = ["LooksAsked", "WrittenLooks", "draw_expected_looks"]
