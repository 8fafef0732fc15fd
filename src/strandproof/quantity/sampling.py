"""Draws of the inputs of a model, each from its distribution."""

from collections.abc import Mapping, Sequence
from math import isinf, pi, sqrt

import numpy as np
import numpy.typing as npt

from strandproof.errors import ParameterError
from strandproof.quantity.inputs import HALF_WIDTHS_PER_DEVIATION, Input

FloatArray = npt.NDArray[np.float64]


def require_drawable(inputs: Sequence[Input], matrix: FloatArray) -> None:
    """Refuse correlations for which no joint distribution is defined.

    Parameters
    ----------
    inputs : sequence of Input
        The inputs.
    matrix : ndarray of shape (n_inputs, n_inputs)
        Correlation coefficients.

    Raises
    ------
    ParameterError
        If a correlated pair is neither both normal nor both student.
    """
    for row, column in zip(*np.nonzero(np.triu(matrix, k=1)), strict=True):
        pair = (inputs[int(row)], inputs[int(column)])
        shapes = {one.distribution for one in pair}
        if shapes not in ({"normal"}, {"student"}):
            raise ParameterError(
                "correlations",
                tuple(one.keyword for one in pair),
                allowed="pairs of normal inputs, or of student inputs, for Monte Carlo",
                remedy="No joint distribution is defined for other shapes: model "
                "the common cause as an input of its own.",
            )


def square_root_of_matrix(matrix: FloatArray) -> FloatArray:
    """Return S with S S' = matrix.

    Cholesky's factor, as in JCGM 101 6.4.8.4 (from memory), exists for positive
    definite matrices only; inputs with full correlation need the eigenvalue form.

    Parameters
    ----------
    matrix : ndarray of shape (n_inputs, n_inputs)
        Symmetric, no eigenvalue below zero.

    Returns
    -------
    ndarray of shape (n_inputs, n_inputs)
        The factor.
    """
    values, vectors = np.linalg.eigh(matrix)
    if values[0] > 1e-12:
        root = np.linalg.cholesky(matrix)
    else:
        root = vectors * np.sqrt(np.clip(values, 0.0, None))
    return np.asarray(root, dtype=np.float64)


def input_draws(
    inputs: Sequence[Input],
    root: FloatArray,
    size: int,
    generator: np.random.Generator,
) -> Mapping[str, FloatArray]:
    """Return draws of all inputs.

    Parameters
    ----------
    inputs : sequence of Input
        The inputs.
    root : ndarray of shape (n_inputs, n_inputs)
        Factor of the correlation matrix.
    size : int
        How many draws.
    generator : numpy.random.Generator
        Source of randomness.

    Returns
    -------
    mapping of str to ndarray of shape (size,)
        Draws by keyword, each in its input's unit.
    """
    normal = root @ generator.standard_normal((len(inputs), size))
    widenings: dict[str, FloatArray] = {}
    draws: dict[str, FloatArray] = {}
    for place, one in enumerate(inputs):
        shape = normal[place]
        if one.distribution == "student":
            widening = widenings.get(one.ensemble) if one.ensemble else None
            if widening is None:
                widening = _student_widening(one.degrees_of_freedom, size, generator)
                widenings[one.ensemble] = widening
            shape = shape * widening
        elif one.distribution != "normal":
            shape = _bounded_draws(one, size, generator)
        draws[one.keyword] = one.estimate + one.standard_uncertainty * shape
    return draws


def _student_widening(
    freedom: float, size: int, generator: np.random.Generator
) -> FloatArray:
    """Return the factor that turns standard normal into Student t draws."""
    return np.sqrt(freedom / generator.chisquare(freedom, size))


def _bounded_draws(one: Input, size: int, generator: np.random.Generator) -> FloatArray:
    """Return draws about zero, in units of the standard uncertainty."""
    half_width = HALF_WIDTHS_PER_DEVIATION[one.distribution]
    even = generator.random(size)
    if one.distribution == "arcsine":
        return half_width * np.sin(2.0 * pi * even)
    if one.distribution == "triangular":
        return half_width * (even + generator.random(size) - 1.0)
    if isinf(one.degrees_of_freedom):
        return half_width * (2.0 * even - 1.0)
    doubt = 1.0 / sqrt(2.0 * one.degrees_of_freedom)
    widths = 1.0 + doubt * (2.0 * generator.random(size) - 1.0)
    return half_width * widths * (2.0 * even - 1.0)
