"""Words for likelihood ratios, by a published scale that is always named."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite

from strandproof.errors import ParameterError
from strandproof.tables.loader import TableRow
from strandproof.tables.package_data import package_table


@dataclass(frozen=True, slots=True, kw_only=True)
class VerbalStrength:
    """The word for a likelihood ratio and for its reciprocal.

    Parameters
    ----------
    ratio : float
        Likelihood ratio of the first hypothesis to the second; above 0.
    word : str
        How strongly `ratio` supports the first hypothesis over the second.
    reciprocal_word : str
        How strongly ``1 / ratio`` supports the second over the first. It has a
        meaning for an estimate only: the reciprocal of a lower bound is no
        bound the other way.
    scale : str
        Name of the scale and the edge rule, to be printed beside the word.
    """

    ratio: float
    word: str
    reciprocal_word: str
    scale: str

    def __str__(self) -> str:
        return f"{self.word} (scale: {self.scale})"


def verbal_strength(
    ratio: float, *, table: Mapping[str, TableRow] | None = None
) -> VerbalStrength:
    """Word for a likelihood ratio, its reciprocal, and the scale they go by.

    Several scales are in use and they contradict each other, so the word is
    never shown without the scale. The word says how much more probable the
    observation is under one hypothesis than under the other; it does not say
    how probable a hypothesis is.

    Parameters
    ----------
    ratio : float
        Likelihood ratio of the first hypothesis to the second; above 0.
    table : Mapping from str to TableRow, optional
        Bands as key (word) and value (lower edge, included); None takes the
        package's table ``verbal_scale``.

    Returns
    -------
    VerbalStrength
        Both words and the scale.

    Raises
    ------
    ParameterError
        If the ratio is not a finite number above 0.

    Notes
    -----
    A band reaches from its lower edge, included, to the next edge, excluded.
    Whether an edge belongs to the band above is not known from the published
    scale; it is this project's rule.

    References
    ----------
    European guideline for evaluative reporting in forensic science, 2015, as
    given second-hand; the guideline itself was not read.

    Examples
    --------
    >>> verbal_strength(190).word
    'moderately strong'
    >>> verbal_strength(1 / 190).word, verbal_strength(1 / 190).reciprocal_word
    ('no support', 'moderately strong')
    """
    if not isfinite(ratio) or ratio <= 0:
        raise ParameterError("ratio", ratio, allowed="a finite number above 0")
    bands = package_table("verbal_scale") if table is None else table
    return VerbalStrength(
        ratio=ratio,
        word=_word(ratio, bands),
        reciprocal_word=_word(1 / ratio, bands),
        scale=_scale_name(bands),
    )


def _word(ratio: float, bands: Mapping[str, TableRow]) -> str:
    reached = [row for row in bands.values() if row.value <= ratio]
    if not reached:
        raise ParameterError(
            "verbal scale", sorted(bands), allowed="bands whose lowest edge is 0"
        )
    return max(reached, key=lambda row: row.value).key.replace("_", " ")


def _scale_name(bands: Mapping[str, TableRow]) -> str:
    row = max(bands.values(), key=lambda row: row.value)
    return f"{row.source}, {row.edition}; lower edge of each band included"
