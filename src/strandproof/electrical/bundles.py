"""Where the strands of a bundle lie, and the field of the others across each."""

from functools import cache
from math import inf, pi

import numpy as np
import numpy.typing as npt

from strandproof.electrical.internal_impedance import (
    MAGNETIC_CONSTANT,
    transverse_loss_factor,
)
from strandproof.errors import ParameterError
from strandproof.records.electrical import StrandBundle

Places = npt.NDArray[np.float64]

# Where the middle of a bundle may lie in a net of triangles of side 1: on a strand,
# between two, between three.
_MIDDLES = ((0.0, 0.0), (0.5, 0.0), (0.5, 3**-0.5 / 2))
_ALIKE = 1e-9


def strand_places(strands: int) -> Places:
    """Places of round strands packed in a net of triangles, as round as they lie.

    Parameters
    ----------
    strands : int
        Strands; 1 or more.

    Returns
    -------
    ndarray of shape (strands, 2)
        Centres in units of the strand's diameter; their middle is about the origin.

    Raises
    ------
    ParameterError
        If there is no strand.

    Examples
    --------
    >>> [round(float(np.hypot(*strand_places(n).T).max()), 3) for n in (1, 7, 19)]
    [0.0, 1.0, 2.0]
    """
    if strands < 1:
        raise ParameterError("strands", strands, allowed="1 or more")
    candidates = [_nearest(strands, middle) for middle in _MIDDLES]
    return min(candidates, key=lambda places: float(np.hypot(*places.T).max()))


def packed_diameter_mm(bundle: StrandBundle) -> float:
    """Diameter of the bundle over the metal of its outermost strands.

    Parameters
    ----------
    bundle : StrandBundle
        The bundle.

    Returns
    -------
    float
        Diameter [mm]: as given, or of the densest packing of this kind.

    Raises
    ------
    ParameterError
        If the strands do not fit into the diameter given.
    """
    own = bundle.wire.diameter_mm
    farthest = float(np.hypot(*strand_places(bundle.strands).T).max())
    given = bundle.diameter_mm
    if given is None:
        return own * (1.0 + 2.0 * farthest)
    if bundle.strands * own**2 > given**2 * (1.0 + _ALIKE):
        raise ParameterError(
            "bundle diameter",
            given,
            allowed=f"a diameter in mm that {bundle.strands} strands of {own:g} mm "
            "fit into",
        )
    return given


def proximity_ohm_per_m(bundle: StrandBundle, *, frequency_hz: float) -> float:
    """Resistance that the field of the other strands adds, per metre of strand.

    Every strand carries the same current (insulated, all changing places), the
    field is that of line currents on the strands' axes, uniform over a strand, and
    not changed by the eddy currents of the neighbours. Against an exact solution in
    multipoles that is right to 5 % for strands up to one skin depth thick (two strands
    worst), and too high beyond: 8 % at 1.7 skin depths, 28 % at 2.4, 70 % at 3.4.
    Fields from
    outside of the bundle (the return conductor beside it) are not in it.

    Parameters
    ----------
    bundle : StrandBundle
        Insulated strands without layers of a magnetic metal.
    frequency_hz : float
        Frequency [Hz]; above 0, up to 1 MHz.

    Returns
    -------
    float
        Series resistance of the whole bundle [ohm/m]; 0 for one strand.

    Raises
    ------
    ParameterError
        If the frequency is out of range, a metal is magnetic, or the strands do not
        fit.

    Notes
    -----
    With i the current of a strand and h = H/i at its place from all others,
    P = sum of pi w mu0 a^2 H^2 Im(I2/I0) over the strands, H peak; dividing by half
    the square of the whole current n i gives
    R = 2 pi w mu0 a^2 Im(I2(u)/I0(u)) mean(h^2)/n.
    """
    if bundle.strands == 1:
        return 0.0
    wire = bundle.wire
    if any(layer.metal.relative_permeability != 1.0 for layer in wire.layers):
        raise ParameterError(
            "relative_permeability",
            [layer.metal.relative_permeability for layer in wire.layers],
            allowed="1 for the layers of strands in a bundle",
            remedy="Compute one magnetic strand alone; no formula for a bundle of "
            "them is offered.",
        )
    angular = 2.0 * pi * frequency_hz * MAGNETIC_CONSTANT
    factor = transverse_loss_factor(wire, frequency_hz=frequency_hz)
    pitch_m = 1e-3 * _pitch_mm(bundle)
    square = _mean_square_field(bundle.strands) / pitch_m**2
    return 2.0 * pi * angular * wire.radius_m**2 * factor * square / bundle.strands


def _pitch_mm(bundle: StrandBundle) -> float:
    """Distance of neighbouring strands' axes, from the bundle's diameter."""
    farthest = float(np.hypot(*strand_places(bundle.strands).T).max())
    return (packed_diameter_mm(bundle) - bundle.wire.diameter_mm) / (2.0 * farthest)


@cache
def _mean_square_field(strands: int) -> float:
    """Mean square of the others' field over the strands; current 1, pitch 1."""
    places = strand_places(strands)
    total = 0.0
    for place in places:
        away = place - places
        squared = np.sum(away**2, axis=1)
        squared[squared == 0.0] = inf
        field = np.sum(away / squared[:, None], axis=0) / (2.0 * pi)
        total += float(field @ field)
    return total / strands


def _nearest(strands: int, middle: tuple[float, float]) -> Places:
    side = int(np.ceil(np.sqrt(strands))) + 2
    rows, columns = np.mgrid[-side : side + 1, -side : side + 1]
    x = columns + 0.5 * rows - middle[0]
    y = rows * 3**0.5 / 2 - middle[1]
    places = np.stack([x.ravel(), y.ravel()], axis=1)
    # Ties by angle, so that the same bundle is drawn on every machine.
    distance = np.round(np.hypot(places[:, 0], places[:, 1]), 9)
    angle = np.round(np.arctan2(places[:, 1], places[:, 0]), 9)
    chosen = places[np.lexsort((angle, distance))[:strands]]
    return np.asarray(chosen, dtype=np.float64)
