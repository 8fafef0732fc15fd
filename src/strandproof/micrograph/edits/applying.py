"""A person's edits on top of what a method found; the edits win."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.edits.areas import with_area, without_area
from strandproof.micrograph.edits.canvas import (
    Canvas,
    closed_numbers,
    in_single_pieces,
    window_around,
)
from strandproof.micrograph.edits.kinds import (
    AddBoundary,
    Edit,
    EraseBoundary,
    ExcludeArea,
    MarkTwin,
    TakeInArea,
)
from strandproof.micrograph.edits.lines import with_boundary, without_boundary
from strandproof.micrograph.edits.segments import segments_after
from strandproof.micrograph.edits.strokes import Stroke, stroke_through
from strandproof.records import LabelledStructure, Strand, StrandVerdict

Labels = npt.NDArray[np.int32]
Mask = npt.NDArray[np.bool_]
Integers = npt.NDArray[np.int64]


def with_edits(
    structure: LabelledStructure, edits: Sequence[Edit]
) -> LabelledStructure:
    """Apply a person's edits to a segmentation, one after the other.

    Grains, strands and boundaries that no edit touched stay as the method left
    them. A strand keeps its number, shape, axis, extent and ovality.

    Parameters
    ----------
    structure : LabelledStructure
        What a method found; it is not changed.
    edits : sequence of Edit
        In the order in which they are applied.

    Returns
    -------
    LabelledStructure
        Grains numbered 1..N, each touched one in one piece and in one strand. The
        method's name says how many edits there were. Strands that an edit touched
        have their verdict by the number of grains; strands that were excluded whole
        are left out. `segments` stays None where the method does not say.

    Raises
    ------
    ParameterError
        If an edit lies outside of the picture, or changes nothing.

    Examples
    --------
    >>> import numpy as np
    >>> from strandproof.micrograph.edits import AddBoundary
    >>> whole = LabelledStructure(
    ...     grain_labels=np.ones((20, 30), np.int32),
    ...     strand_labels=np.ones((20, 30), np.int32), strands=(), flags=(),
    ...     method="drawn", method_version="1",
    ... )
    >>> parted = with_edits(whole, [AddBoundary(points_px=((0, 12), (19, 12)))])
    >>> int(parted.grain_labels.max()), parted.method
    (2, 'drawn with 1 edit by hand')
    """
    if not edits:
        return structure
    start = canvas = _canvas(structure)
    n_strands = int(canvas.strands.max(initial=0)) + 1
    touches = np.zeros(n_strands, np.int64)
    for edit in edits:
        following = _applied(canvas, edit)
        touched = _touched_strands(canvas, following)
        touches[touched[touched < n_strands]] += 1
        canvas = following
    grains = _closed(canvas)
    strands = canvas.seen_strands
    return replace(
        structure,
        grain_labels=grains,
        strand_labels=strands,
        strands=_described(structure.strands, grains, strands, touches),
        flags=tuple(
            flag
            for flag in structure.flags
            if flag.name != "no_boundary_found" or grains.max(initial=0) <= 1
        ),
        method=f"{structure.method} with {_number_of_edits(len(edits))} by hand",
        segments=None
        if structure.segments is None
        else segments_after(
            structure.segments,
            before=(start.grains, start.strands),
            after=(grains, strands),
            drawn=canvas.drawn,
        ),
        twin_boundary=_given(structure.twin_boundary, canvas.twins),
        unreadable=_given(structure.unreadable, canvas.hidden),
    )


def verdict_after_edits(n_grains: int, edited: int) -> tuple[StrandVerdict, str]:
    """Judge a strand whose grains a person has corrected.

    Parameters
    ----------
    n_grains : int
        Grains in it after the edits.
    edited : int
        Edits that touched it.

    Returns
    -------
    verdict : {"single", "poly", "undecided"}
        One grain, several, or none that could be read.
    reason : str
        One sentence.

    Examples
    --------
    >>> verdict_after_edits(1, 2)
    ('single', '1 grain after 2 edits by hand.')
    """
    verdict: StrandVerdict = "undecided"
    if n_grains:
        verdict = "single" if n_grains == 1 else "poly"
    grains = f"{n_grains or 'No'} grain{'' if n_grains == 1 else 's'}"
    return verdict, f"{grains} after {_number_of_edits(edited)} by hand."


def _number_of_edits(count: int) -> str:
    return f"{count} edit{'' if count == 1 else 's'}"


def _canvas(structure: LabelledStructure) -> Canvas:
    none = np.zeros(structure.grain_labels.shape, np.bool_)
    hidden = none if structure.unreadable is None else structure.unreadable
    twins = none if structure.twin_boundary is None else structure.twin_boundary
    return Canvas(
        grains=np.where(hidden, 0, structure.grain_labels).astype(np.int32),
        strands=np.where(hidden, 0, structure.strand_labels).astype(np.int32),
        hidden=hidden,
        unseen=hidden,
        twins=twins,
        drawn=none,
    )


def _applied(canvas: Canvas, edit: Edit) -> Canvas:
    if isinstance(edit, ExcludeArea):
        return without_area(canvas, edit.points_px)
    if isinstance(edit, TakeInArea):
        return with_area(canvas, edit.points_px)
    stroke = stroke_through(edit.points_px, canvas.grains.shape)
    low, high = (
        (int(end(stroke.rows)), int(end(stroke.cols))) for end in (np.min, np.max)
    )
    window = window_around(canvas.grains, low, high)
    part = window.cut_out(canvas)
    rows, cols = window.place
    local = Stroke(rows=stroke.rows - rows.start, cols=stroke.cols - cols.start)
    known = int(part.grains.max(initial=0))
    return window.put_back(_line_drawn(part, local, edit), canvas, known=known)


def _line_drawn(
    part: Canvas, stroke: Stroke, edit: AddBoundary | EraseBoundary | MarkTwin
) -> Canvas:
    if isinstance(edit, AddBoundary):
        return with_boundary(part, stroke, edit)
    joined, line = without_boundary(part, stroke, edit)
    if isinstance(edit, EraseBoundary):
        return joined
    return replace(joined, twins=joined.twins | line)


def _touched_strands(before: Canvas, after: Canvas) -> Integers:
    changed = before.seen_grains != after.seen_grains
    changed |= before.seen_strands != after.seen_strands
    touched: Integers = np.unique(after.strands[changed]).astype(np.int64)
    return touched[touched > 0]


def _closed(canvas: Canvas) -> Labels:
    """Close the numbers; a grain that a hidden area cuts in two is two grains."""
    seen = canvas.seen_grains
    cut = np.unique(canvas.grains[canvas.hidden & (canvas.grains > 0)])
    return closed_numbers(in_single_pieces(seen, cut.tolist()))


def _given(before: Mask | None, after: Mask) -> Mask | None:
    return None if before is None and not after.any() else after


def _described(
    strands: tuple[Strand, ...], grains: Labels, labels: Labels, touches: Integers
) -> tuple[Strand, ...]:
    kept = []
    for strand in strands:
        edited = int(touches[strand.number])
        if edited == 0:
            kept.append(strand)
            continue
        rows, cols = np.nonzero(labels == strand.number)
        if rows.size == 0:
            continue
        own = np.unique(grains[rows, cols])
        verdict, reason = verdict_after_edits(int((own > 0).sum()), edited)
        kept.append(
            replace(
                strand,
                area_px=float(rows.size),
                centroid_px=(float(rows.mean()), float(cols.mean())),
                verdict=verdict,
                verdict_reason=reason,
            )
        )
    return tuple(kept)
