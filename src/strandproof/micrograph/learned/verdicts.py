"""One crystal or several: a verdict on each strand, with how often it is wrong."""

from dataclasses import dataclass
from math import sqrt

import numpy as np
import numpy.typing as npt

from strandproof.micrograph.learned.card import KnownStrands, known_strands
from strandproof.micrograph.learned.counting import areas_of, owners_of
from strandproof.micrograph.learned.grains import Grains
from strandproof.micrograph.learned.metal import MetalMap
from strandproof.records import StrandVerdict

Bytes = npt.NDArray[np.uint8]
Labels = npt.NDArray[np.int32]
Floats = npt.NDArray[np.float64]

_LEAST_GRAIN_PX = 60  # smaller regions are pits and dirt as often as grains
_PER_PAIR = 0.785  # length of a line per pixel pair, mean over all directions
_HALF = 128


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What was told about a strand.

    Parameters
    ----------
    word : {"single", "poly", "undecided"}
        The verdict.
    reason : str
        One or two sentences with the figures behind it.
    """

    word: StrandVerdict
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StrandEvidence:
    """What speaks for more than one crystal in a strand.

    Lengths are over the square root of the strand's area, so that a larger picture
    of the same strand gives the same numbers.

    Parameters
    ----------
    n_grains : int
        Regions of 60 px or more.
    closed : float
        Length of closed boundary, each segment times its strength.
    strength : float
        Mean strength of the closed boundary, 0 to 1.
    loose : float
        Length of likely boundary pixels, closed or not.
    unreadable : float
        Share of the strand where nothing can be told.
    """

    n_grains: int
    closed: float
    strength: float
    loose: float
    unreadable: float


# Set on drawn strands kept apart from the training; the card gives the error rates
# on others, drawn later.
_NOTHING_CLOSED = 0.02
_POLY_FROM_CLOSED, _POLY_FROM_STRENGTH = 0.5, 0.6
_SINGLE_UP_TO_LOOSE = 0.1
_MOST_UNREADABLE = 0.5


def verdict_of(evidence: StrandEvidence, known: KnownStrands) -> Verdict:
    """Give the verdict that the evidence allows.

    Parameters
    ----------
    evidence : StrandEvidence
        What was found in the strand.
    known : KnownStrands
        How often the rule was wrong on strands with known answers.

    Returns
    -------
    Verdict
        Word and reason.
    """
    if evidence.unreadable > _MOST_UNREADABLE:
        share = f"{100 * evidence.unreadable:.0f} %"
        return Verdict(word="undecided", reason=f"{share} of it cannot be read.")
    if evidence.n_grains >= 2 and evidence.closed > _NOTHING_CLOSED:
        regions = f"{evidence.n_grains} regions were told apart"
        if (
            evidence.closed >= _POLY_FROM_CLOSED
            and evidence.strength >= _POLY_FROM_STRENGTH
        ):
            return Verdict(
                word="poly", reason=f"{regions} by their boundaries. {known.of_poly()}"
            )
        return Verdict(
            word="undecided", reason=f"{regions}, but by short or faint lines only."
        )
    if evidence.loose > _SINGLE_UP_TO_LOOSE:
        return Verdict(
            word="undecided",
            reason="Lines like boundaries were seen, but none that closes.",
        )
    return Verdict(
        word="single",
        reason=f"No closed boundary resolved over the area seen. {known.of_single()}",
    )


def verdicts_of(
    boundary: Bytes, metal: MetalMap, strand_labels: Labels, grains: Grains
) -> dict[int, Verdict]:
    """Give a verdict on every strand.

    Parameters
    ----------
    boundary : ndarray of uint8, shape (n_rows, n_cols)
        The network's plane of grain boundaries.
    metal : MetalMap
        Strands with what cannot be read in them.
    strand_labels : ndarray of int32, shape (n_rows, n_cols)
        Strands without what cannot be read.
    grains : Grains
        Grains with their borders.

    Returns
    -------
    dict of int to Verdict
        By strand number.
    """
    known = known_strands()
    found = strand_evidence(boundary, metal, strand_labels, grains)
    return {number: verdict_of(each, known) for number, each in found.items()}


def strand_evidence(
    boundary: Bytes, metal: MetalMap, strand_labels: Labels, grains: Grains
) -> dict[int, StrandEvidence]:
    """Gather the evidence by strand.

    Parameters
    ----------
    boundary, metal, strand_labels, grains
        As for `verdicts_of`.

    Returns
    -------
    dict of int to StrandEvidence
        By strand number.
    """
    n_strands = int(metal.strand_labels.max(initial=0))
    numbers = np.arange(1, n_strands + 1)
    whole = areas_of(metal.strand_labels, n_strands)[1:]
    area = areas_of(strand_labels, n_strands)[1:]
    likely = np.where(boundary >= _HALF, strand_labels, np.int32(0))
    lines = areas_of(likely, n_strands)[1:] / 2
    owner = owners_of(grains.labels, strand_labels, grains.graph.area.size - 1)
    large = grains.graph.area >= _LEAST_GRAIN_PX
    counts = np.bincount(owner[1:][large[1:]], minlength=n_strands + 1)[1:]
    weighed, plain = _closed_lengths(grains, owner, n_strands)
    return {
        int(number): StrandEvidence(
            n_grains=int(counts[k]),
            closed=float(weighed[k]) / sqrt(max(area[k], 1)),
            strength=float(weighed[k] / plain[k]) if plain[k] else 0.0,
            loose=float(lines[k]) / sqrt(max(area[k], 1)),
            unreadable=1 - float(area[k]) / max(whole[k], 1),
        )
        for k, number in enumerate(numbers)
    }


def _closed_lengths(
    grains: Grains, owner: npt.NDArray[np.int64], n_strands: int
) -> tuple[Floats, Floats]:
    """Length of closed boundary in each strand, weighed by strength and plain."""
    graph = grains.graph
    strand = owner[graph.first]
    plain = _PER_PAIR * graph.length
    weighed, whole = (
        np.bincount(strand, weights=lengths, minlength=n_strands + 1)[1:]
        for lengths in (plain * graph.boundary_strength(), plain)
    )
    return weighed.astype(np.float64), whole.astype(np.float64)
