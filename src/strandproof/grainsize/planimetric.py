"""Grains counted in an area."""

import numpy as np
import numpy.typing as npt

from strandproof.errors import ParameterError
from strandproof.grainsize.estimates import grains_per_area_estimate
from strandproof.grainsize.patch import require_labels
from strandproof.grainsize.triple_points import AreaTally
from strandproof.quantity import Quantity
from strandproof.records.measurement import Estimate, FrameRule, GrainCount


def count_grains(
    grain_labels: npt.NDArray[np.integer],
    region: npt.NDArray[np.bool_],
    *,
    frame_rule: FrameRule = "half",
) -> GrainCount:
    """Count the grains of a region, whole ones and cut ones apart.

    A grain is cut where it goes on outside of the region or reaches the frame
    of the picture. A grain that ends at the strand's edge ends there in truth
    and is whole. The area is all of the region, boundary lines included, so
    that wide lines do not make the grains look smaller.

    Parameters
    ----------
    grain_labels : ndarray of int, shape (n_rows, n_cols)
        Grain labels of the whole picture; 0 on boundaries and off the metal.
    region : ndarray of bool, shape (n_rows, n_cols)
        True on the metal to be counted, boundaries included.
    frame_rule : {"half", "half_and_quarter_corners"}
        Score of cut grains, see Notes.

    Returns
    -------
    GrainCount
        Grains inside, grains cut, equivalent count, area [px^2].

    Raises
    ------
    ParameterError
        If the arrays are not two-dimensional and of one shape, a label is
        negative, the region is empty or the rule unknown.

    Notes
    -----
    n = n1 + n2/2 (GB 6394-86 eq. (5), read; ASTM E112 the same, from memory),
    made for a circle. On a rectangular picture it counts the grains at the four
    corners twice as high as their share, about one grain too many in all.
    ``"half_and_quarter_corners"`` counts those a quarter each (Saltykov, from
    memory), which is exact for a square tiling.

    References
    ----------
    GB 6394-86, modified from ASTM E112-81.

    Examples
    --------
    >>> import numpy as np
    >>> labels = np.array([[0, 0, 0, 0], [0, 1, 2, 0], [0, 1, 2, 2], [0, 0, 0, 0]])
    >>> count = count_grains(labels, labels > 0)
    >>> count.inside, count.cut, count.equivalent
    (1, 1, 1.5)
    """
    require_labels(grain_labels, region)
    if not region.any():
        raise ParameterError("region", "no pixel", allowed="a region with metal")
    present = np.bincount(grain_labels[region], minlength=1) > 0
    beyond = np.bincount(grain_labels[~region], minlength=present.size) > 0
    on_frame = grain_labels[_frame(region.shape) & region]
    cut = beyond[: present.size] | (np.bincount(on_frame, minlength=present.size) > 0)
    n_cut = int(np.count_nonzero(present[1:] & cut[1:]))
    n_inside = int(np.count_nonzero(present[1:] & ~cut[1:]))
    return GrainCount(
        inside=n_inside,
        cut=n_cut,
        equivalent=n_inside + 0.5 * n_cut - _corner_share(region, frame_rule),
        area=Quantity(float(np.count_nonzero(region)), "px^2"),
    )


def grains_per_area(
    count: GrainCount, *, scatter: AreaTally | None = None, minimum_blocks: int = 4
) -> Estimate | None:
    """Grains per area of one count, with its interval within the picture.

    Parameters
    ----------
    count : GrainCount
        A count with its area [px^2].
    scatter : AreaTally or None
        Areas and triple points by parts of the picture; None for none.
    minimum_blocks : int
        Fewest parts that an interval may come from; 2 or more.

    Returns
    -------
    Estimate or None
        Grains per area [1/px^2]; None with fewer than two grains, because a
        piece without a boundary has no grain size, only a size.

    Examples
    --------
    >>> from strandproof.quantity import Quantity
    >>> area = Quantity(1000.0, "px^2")
    >>> count = GrainCount(inside=8, cut=4, equivalent=10.0, area=area)
    >>> grains_per_area(count).quantity.value
    0.01
    """
    if count.grains < 2 or count.equivalent <= 0:
        return None
    return grains_per_area_estimate(
        count.equivalent,
        count.area.value,
        scatter=scatter,
        minimum_blocks=minimum_blocks,
    )


def _frame(shape: tuple[int, ...]) -> npt.NDArray[np.bool_]:
    frame = np.ones(shape, dtype=np.bool_)
    frame[1:-1, 1:-1] = False
    return frame


def _corner_share(region: npt.NDArray[np.bool_], frame_rule: FrameRule) -> float:
    # What the corners of the picture take off a count of one half for each cut grain.
    if frame_rule == "half":
        return 0.0
    if frame_rule == "half_and_quarter_corners":
        corners = region[[0, 0, -1, -1], [0, -1, 0, -1]]
        return 0.25 * float(np.count_nonzero(corners))
    raise ParameterError(
        "frame_rule", frame_rule, allowed="'half' or 'half_and_quarter_corners'"
    )
