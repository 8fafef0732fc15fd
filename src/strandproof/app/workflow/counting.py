"""Use case: one picture counted by named procedures, with its rules recorded."""

from collections.abc import Callable
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from strandproof.app.workflow.counting_words import BoundAsked, counts_in_words
from strandproof.errors import NoScaleError, UnsupportedPictureError
from strandproof.grainsize import counting_rules
from strandproof.grainsize.procedures import (
    PROCEDURES,
    ProcedureSettings,
    count_structure,
    procedure_settings,
    scoring_rules,
    share_outside,
    three_planes,
    with_given_labels,
)
from strandproof.micrograph import segment
from strandproof.quantity import Quantity
from strandproof.records import LabelledStructure
from strandproof.records.measurement import FrameRule, LineEndRule
from strandproof.records.plain_data import PlainValue, as_plain_data
from strandproof.records.procedures import (
    CountingStandard,
    TangentRule,
    TriplePointRule,
)
from strandproof.records.structure_findings import PictureCounts, ThreePlanes
from strandproof.storage import DecodedPicture, read_picture

Progress = Callable[[float, str], None]
SCHEMA_NAME = "strandproof-counts"
SCHEMA_VERSION = 1
PROCEDURE_NAMES = PROCEDURES
"""Names of all procedures, for faces that list them."""

_SEGMENTING_SHARE = 0.7


@dataclass(frozen=True, slots=True, kw_only=True)
class CountingChoices:
    """Rules a person chose for a count.

    Parameters
    ----------
    procedures : tuple of str
        Names of procedures, in the order wanted.
    standard : {"textbook", "e112", "e112_circles"}
        Whose scores are taken.
    tangent : {"half", "one"} or None
        Score of a tangent; None takes the standard's.
    triple_point : {"one_and_half", "two"} or None
        Score of a triple point; None takes the standard's.
    line_ends : {"half", "whole_at_strand_edge"}
        Score of intercepts that end at a strand's edge.
    frame_rule : {"half", "half_and_quarter_corners"}
        Score of grains that the picture's frame cuts.
    magnification : float or None
        Figures as on a print of this magnification; None takes the largest.
    placements : int
        Most circles side by side; 1 or more.
    """

    procedures: tuple[str, ...] = PROCEDURES
    standard: CountingStandard = "textbook"
    tangent: TangentRule | None = None
    triple_point: TriplePointRule | None = None
    line_ends: LineEndRule = "half"
    frame_rule: FrameRule = "half_and_quarter_corners"
    magnification: float | None = None
    placements: int = 1

    def settings(self, pixel_size: Quantity | None) -> ProcedureSettings:
        """Give the settings of the procedures by these choices.

        Parameters
        ----------
        pixel_size : Quantity or None
            Size of a pixel [um].

        Returns
        -------
        ProcedureSettings
            The settings.
        """
        return procedure_settings(
            pixel_size,
            rules=counting_rules(frame_rule=self.frame_rule, line_ends=self.line_ends),
            scoring=scoring_rules(
                self.standard,
                tangent=self.tangent,
                triple_point=self.triple_point,
                line_ends=self.line_ends,
            ),
            magnification=self.magnification,
            placements=self.placements,
        )


@dataclass(frozen=True, slots=True, eq=False)
class CountedPicture:
    """A counted picture.

    Parameters
    ----------
    name : str
        Name of the file.
    picture : DecodedPicture
        The pixels and what the file says.
    counts : PictureCounts
        What was counted.
    outside_share : float
        Share of given labels that lie on no metal found; 0 without given labels.
    structure : LabelledStructure
        The labels counted.
    settings : ProcedureSettings
        Scale and rules of the count.
    """

    name: str
    picture: DecodedPicture
    counts: PictureCounts
    outside_share: float
    structure: LabelledStructure
    settings: ProcedureSettings


def count_picture(
    path: Path,
    choices: CountingChoices,
    *,
    pixel_size: Quantity | None = None,
    in_pixels: bool = False,
    labels_files: tuple[Path | None, Path | None] = (None, None),
    progress: Progress | None = None,
) -> CountedPicture:
    """Count one picture by named procedures.

    Parameters
    ----------
    path : Path
        The picture.
    choices : CountingChoices
        Rules and sizes of figures.
    pixel_size : Quantity or None
        Pixel size [um]; None takes the file's own, if it states one.
    in_pixels : bool
        Count without any scale: no G, flagged.
    labels_files : tuple of (Path or None, Path or None)
        PNG files with grain labels to be counted instead of found ones: with twins
        merged, and with every twin a region of its own.
    progress : callable or None
        Called with a fraction and words; may raise to cancel.

    Returns
    -------
    CountedPicture
        All counts.

    Raises
    ------
    NoScaleError
        If there is no pixel size and counting in pixels was not asked for.
    """
    picture = read_picture(path, um_per_px=pixel_size)
    scale = None if in_pixels else pixel_size or _scale_of_file(picture)
    if scale is None and not in_pixels:
        raise NoScaleError(path.name)
    settings = choices.settings(scale)
    merged, twinned = (None if each is None else _labels(each) for each in labels_files)
    report = progress or _silent
    found = segment(
        picture.pixels,
        valid=picture.valid,
        progress=lambda done, words: report(_SEGMENTING_SHARE * done, words),
    )
    report(_SEGMENTING_SHARE, "counting")
    outside, structure = 0.0, found
    if merged is not None:
        structure = with_given_labels(found, merged, method="labels given")
        outside = share_outside(found, merged)
    counts = count_structure(
        structure,
        settings,
        procedures=choices.procedures,
        with_twins=None
        if twinned is None
        else with_given_labels(found, twinned, method="labels given"),
    )
    report(1.0, "done")
    return CountedPicture(
        name=path.name,
        picture=picture,
        counts=counts,
        outside_share=outside,
        structure=structure,
        settings=settings,
    )


def counting_document(result: CountedPicture) -> dict[str, Any]:
    """Give a count as plain data, every number with its unit.

    Parameters
    ----------
    result : CountedPicture
        A counted picture.

    Returns
    -------
    dict
        JSON data: the file, versions, rules and counts.
    """
    rows, columns = result.picture.pixels.shape[:2]
    return {
        "schema": SCHEMA_NAME,
        "schema_version": SCHEMA_VERSION,
        "file": {
            "name": result.name,
            "sha256": result.picture.sha256,
            "width_px": columns,
            "height_px": rows,
            "notes": list(result.picture.notes),
        },
        "versions": {"strandproof": version("strandproof")},
        "labels_outside_of_metal": result.outside_share,
        "counts": as_plain_data(result.counts),
        "picture_flags": [flag.name for flag in result.picture.flags],
    }


def counting_in_words(result: CountedPicture, *, bound: BoundAsked) -> str:
    """Say what was counted, by which rules, and whether a mean may be stated.

    Parameters
    ----------
    result : CountedPicture
        A counted picture.
    bound : BoundAsked
        Lengths to speak of where no boundary was resolved.

    Returns
    -------
    str
        Lines for people.
    """
    said = counts_in_words(result.name, result.counts, bound=bound)
    if result.outside_share > 0.01:
        percent = 100 * result.outside_share
        said += f"\n{percent:.0f} % of the labelled pixels lie on no metal found."
    return said


def planes_together(
    longitudinal: float,
    transverse: float,
    planar: float,
    *,
    along_over_across: float | None = None,
) -> ThreePlanes:
    """Take boundaries per length of three planes together.

    Parameters
    ----------
    longitudinal, transverse, planar : float
        Boundaries per length of line on each plane [1/mm]; above 0.
    along_over_across : float or None
        Mean intercept along over across the axis on the longitudinal plane.

    Returns
    -------
    ThreePlanes
        Mean, G and sentence.
    """
    return three_planes(
        longitudinal, transverse, planar, along_over_across=along_over_across
    )


def planes_document(planes: ThreePlanes) -> PlainValue:
    """Give three planes as plain data.

    Parameters
    ----------
    planes : ThreePlanes
        The result.

    Returns
    -------
    PlainValue
        JSON data.
    """
    return as_plain_data(planes)


def _labels(path: Path) -> npt.NDArray[np.int32]:
    picture = read_picture(path)
    if picture.pixels.ndim != 2 or picture.file_format.upper() != "PNG":
        raise UnsupportedPictureError(
            str(path),
            f"{picture.file_format}, {picture.pixels.ndim - 1} colour axes"
            if picture.pixels.ndim != 2
            else picture.file_format,
            allowed="grey PNG of 8 or 16 bit, one grey value a grain",
            remedy="Write labels as measure --labels FILE.png does.",
        )
    highest = 2**picture.bit_depth - 1
    # Exact: 32-bit floats hold every 16-bit number over 65535 to far below one half.
    labels: npt.NDArray[np.int32] = np.rint(picture.pixels * highest).astype(np.int32)
    return labels


def _scale_of_file(picture: DecodedPicture) -> Quantity | None:
    if picture.pixel_size is None:
        return None
    return Quantity(picture.pixel_size.value_um, "um")


def _silent(_fraction: float, _words: str) -> None:
    return None
