"""Correlation between inputs, and the readings it comes from."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import numpy.typing as npt

from strandproof.errors import ParameterError
from strandproof.quantity.inputs import Input
from strandproof.quantity.readings import Readings, input_from_reading_set


@dataclass(frozen=True, slots=True)
class Correlation:
    """Correlation coefficient of two inputs.

    Parameters
    ----------
    first, second : str
        Keywords (symbols) of two different inputs.
    coefficient : float
        Correlation coefficient, from -1 to 1.

    Raises
    ------
    ParameterError
        If both names are the same or the coefficient is out of range.

    Examples
    --------
    >>> Correlation("V", "I", -0.36).coefficient
    -0.36
    """

    first: str
    second: str
    coefficient: float

    def __post_init__(self) -> None:
        if self.first == self.second:
            raise ParameterError(
                "second",
                self.second,
                allowed="another input than the first",
                remedy="An input is always fully correlated with itself.",
            )
        if not -1 <= self.coefficient <= 1:
            raise ParameterError(
                "coefficient", self.coefficient, allowed="a number from -1 to 1"
            )


def inputs_from_paired_readings(
    readings: Sequence[Readings], *, ensemble: str
) -> tuple[tuple[Input, ...], tuple[Correlation, ...]]:
    """Return correlated inputs from quantities that were read together.

    The i-th readings of all quantities belong together (one round of voltage,
    current and phase). The rounds have to be independent of each other.

    Parameters
    ----------
    readings : sequence of Readings
        One set per quantity, all of the same length; two sets or more.
    ensemble : str
        Name of this set of rounds, not empty; inputs of one ensemble may be
        correlated though their degrees of freedom are finite.

    Returns
    -------
    inputs : tuple of Input
        Mean, s / sqrt(n) and n - 1 degrees of freedom for each quantity.
    correlations : tuple of Correlation
        One per pair; pairs with a quantity that never changed are left out.

    Raises
    ------
    ParameterError
        If there are fewer than two sets, their lengths differ, or the ensemble
        has no name.

    Notes
    -----
    r(x, y) of the means equals the correlation of the readings (GUM 5.2.3,
    equations 17 and 14).

    References
    ----------
    JCGM 100:2008, 5.2 and example H.2.

    Examples
    --------
    >>> inputs, correlations = inputs_from_paired_readings(
    ...     (
    ...         Readings(name="voltage", values=(5.0, 5.1, 5.2), unit="V"),
    ...         Readings(name="current", values=(1.0, 1.1, 1.2), unit="A"),
    ...     ),
    ...     ensemble="three rounds",
    ... )
    >>> round(correlations[0].coefficient, 6)
    1.0
    """
    _require_matching(readings, ensemble)
    inputs = tuple(input_from_reading_set(one, ensemble=ensemble) for one in readings)
    correlations = tuple(
        Correlation(first[0].keyword, second[0].keyword, _coefficient(first, second))
        for first, second in combinations(zip(inputs, readings, strict=True), 2)
        if first[0].standard_uncertainty > 0 and second[0].standard_uncertainty > 0
    )
    return inputs, correlations


def correlation_matrix(
    inputs: Sequence[Input], correlations: Iterable[Correlation]
) -> npt.NDArray[np.float64]:
    """Return the checked correlation matrix of a set of inputs.

    Parameters
    ----------
    inputs : sequence of Input
        The inputs, each keyword once.
    correlations : iterable of Correlation
        Coefficients of pairs; a pair not named is uncorrelated.

    Returns
    -------
    ndarray of shape (n_inputs, n_inputs)
        Symmetric matrix of correlation coefficients, in the order of `inputs`.

    Raises
    ------
    ParameterError
        If a keyword occurs twice or is unknown, a pair occurs twice, inputs
        with finite degrees of freedom are correlated outside of an ensemble, or
        the coefficients contradict each other.
    """
    correlations = tuple(correlations)
    places = _places(inputs)
    matrix = np.eye(len(inputs))
    for one in correlations:
        row, column = (_place(places, word) for word in (one.first, one.second))
        if matrix[row, column] != 0:
            raise ParameterError(
                "correlations", (one.first, one.second), allowed="each pair once"
            )
        if one.coefficient != 0:
            _require_correlatable(inputs[row], inputs[column])
        matrix[row, column] = matrix[column, row] = one.coefficient
    # A matrix with a negative eigenvalue would give negative variances.
    if len(inputs) and np.linalg.eigvalsh(matrix)[0] < -1e-10:
        raise ParameterError(
            "correlations",
            [one.coefficient for one in correlations],
            allowed="coefficients that can hold together (no negative eigenvalue)",
            remedy="Take them from one set of readings, with more digits.",
        )
    return matrix


def _require_matching(readings: Sequence[Readings], ensemble: str) -> None:
    lengths = [len(one.values) for one in readings]
    if len(readings) < 2 or len(set(lengths)) != 1:
        raise ParameterError(
            "readings",
            lengths,
            allowed="two sets or more, all of the same number of readings",
        )
    if not ensemble:
        raise ParameterError("ensemble", ensemble, allowed="a name that is not empty")


def _coefficient(
    first: tuple[Input, Readings], second: tuple[Input, Readings]
) -> float:
    matrix = np.corrcoef(first[1].values, second[1].values)
    # Rounding may leave 1.0000000000000002.
    return float(np.clip(matrix[0, 1], -1.0, 1.0))


def _places(inputs: Sequence[Input]) -> dict[str, int]:
    places: dict[str, int] = {}
    for place, one in enumerate(inputs):
        if one.keyword in places:
            raise ParameterError(
                "inputs",
                one.keyword,
                allowed="each symbol once",
                remedy="An input that enters the model twice is given once.",
            )
        places[one.keyword] = place
    return places


def _place(places: dict[str, int], word: str) -> int:
    if word not in places:
        raise ParameterError(
            "correlations",
            word,
            allowed="symbols of the inputs: " + ", ".join(places),
        )
    return places[word]


def _require_correlatable(first: Input, second: Input) -> None:
    freedoms = (first.degrees_of_freedom, second.degrees_of_freedom)
    together = first.ensemble == second.ensemble and first.ensemble != ""
    if freedoms == (np.inf, np.inf) or (together and freedoms[0] == freedoms[1]):
        return
    raise ParameterError(
        "correlations",
        (first.keyword, second.keyword),
        allowed="inputs with infinite degrees of freedom, or of one ensemble with "
        "the same degrees of freedom",
        remedy="The Welch-Satterthwaite formula does not hold for others; make "
        "them from paired readings, or state the degrees of freedom as infinite.",
    )
