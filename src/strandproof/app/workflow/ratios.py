"""The use case that judges a ratio of resistances at two temperatures."""

from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal, get_args

import numpy as np

from strandproof.electrical.residual import (
    bath_temperature,
    conductivity_from_warm_ratio,
    predicted_residual,
    purity_from_residual,
    residual_from_cold_ratio,
    state_terms,
)
from strandproof.errors import MissingMeasurementError, ParameterError
from strandproof.quantity import Input, normal_input, propagate
from strandproof.records import Flag
from strandproof.records.electrical import (
    Bath,
    ColdRatioReading,
    ColdReference,
    MetalState,
    PurityBound,
    ResidualResult,
    WarmRatioReading,
    WarmRatioResult,
    WarmReference,
    WorkState,
)
from strandproof.report.plots import PurityCurve, residual_map_svg
from strandproof.storage import write_output_file

RatioKind = Literal["warm", "nitrogen", "helium"]
Reading = tuple[float, float]
_SEED = 20311
_ELEMENTS = (("Ag", "silver"), ("Ni", "nickel"), ("P", "phosphorus"))
_CONTENTS = tuple(float(one) for one in np.logspace(-1, 3, 33))


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedRatio:
    """A ratio as typed; every pair is a value and its standard uncertainty.

    Parameters
    ----------
    kind : {"warm", "nitrogen", "helium"}
        Where the second reading was taken.
    ratio : tuple of float or None
        Greater over smaller resistance [1]; instead of the two resistances.
    room_ohm, other_ohm : tuple of float or None
        Resistance at room temperature, and at the other temperature [ohm].
    room_celsius : tuple of float
        Temperature of the wire at room temperature [degC].
    warm_celsius : tuple of float or None
        Upper temperature of the warm ratio [degC].
    hectopascal : tuple of float
        Air pressure at the bath [hPa].
    reference_ratio, reference_value : tuple of float or None
        The same ratio of a reference wire read beside it, and what is known of
        that wire: % IACS for the warm ratio, residual ratio for a bath.
    state : MetalState
        Boundaries, diameter, work.
    """

    kind: RatioKind
    ratio: Reading | None = None
    room_ohm: Reading | None = None
    other_ohm: Reading | None = None
    room_celsius: Reading = (20.0, 0.2)
    warm_celsius: Reading | None = None
    hectopascal: Reading = (1013.25, 10.0)
    reference_ratio: Reading | None = None
    reference_value: Reading | None = None
    state: MetalState = field(default_factory=MetalState)


@dataclass(frozen=True, slots=True, kw_only=True)
class RatioAnswer:
    """What a ratio gave.

    Parameters
    ----------
    typed : TypedRatio
        What was typed.
    warm : WarmRatioResult or None
        Of the ratio near room temperature.
    residual : ResidualResult or None
        Of the ratio in a bath.
    purity : PurityBound or None
        What that allows.
    flags : tuple of Flag
        What a reader has to know.
    """

    typed: TypedRatio
    warm: WarmRatioResult | None
    residual: ResidualResult | None
    purity: PurityBound | None
    flags: tuple[Flag, ...]


def judge_ratio(typed: TypedRatio) -> RatioAnswer:
    """Judge a ratio of resistances.

    Parameters
    ----------
    typed : TypedRatio
        What was read.

    Returns
    -------
    RatioAnswer
        Conductivity, or residual resistivity with the purity it allows.

    Raises
    ------
    MissingMeasurementError
        If neither a ratio nor two resistances were given, or a temperature lacks.
    ParameterError
        If a number is out of range, or half a reference was given.
    """
    if typed.kind not in get_args(RatioKind):
        raise ParameterError("kind", typed.kind, allowed="warm, nitrogen or helium")
    if (typed.reference_ratio is None) != (typed.reference_value is None):
        raise ParameterError(
            "reference",
            (typed.reference_ratio, typed.reference_value),
            allowed="both the reference's ratio and its known value, or neither",
        )
    if typed.kind == "warm":
        found = conductivity_from_warm_ratio(
            _warm_reading(typed), generator=np.random.default_rng(_SEED)
        )
        return RatioAnswer(
            typed=typed, warm=found, residual=None, purity=None, flags=found.flags
        )
    residual = residual_from_cold_ratio(_cold_reading(typed, typed.kind))
    purity = purity_from_residual(residual.residual_resistivity, typed.state)
    return RatioAnswer(
        typed=typed,
        warm=None,
        residual=residual,
        purity=purity,
        flags=(*residual.flags, *_work_flags(typed.state.work)),
    )


def write_residual_map(
    target: Path, *, state: MetalState, residual: ResidualResult | None
) -> None:
    """Draw the residual ratio against dissolved impurity, and write it as SVG.

    Parameters
    ----------
    target : Path
        The SVG file; it must not be there.
    state : MetalState
        Boundaries, diameter, work; unknown work is drawn as annealed.
    residual : ResidualResult or None
        A reading, whose band is drawn; None for none.
    """
    band = None
    if residual is not None and residual.ratio_273.lower is not None:
        band = (residual.ratio_273.lower, residual.ratio_273.upper)
    drawing = residual_map_svg(
        [_curve(symbol, name, state) for symbol, name in _ELEMENTS],
        band=band,
        piece=_piece(state),
        title="Residual ratio against dissolved impurity",
    )
    write_output_file(target, str(drawing).encode("utf-8"))


def _curve(symbol: str, name: str, state: MetalState) -> PurityCurve:
    perfect = MetalState(work="annealed")
    return PurityCurve(
        name=name,
        ppm=_CONTENTS,
        ratios=tuple(_usual_ratio(symbol, ppm, state) for ppm in _CONTENTS),
        bare_ratios=tuple(_usual_ratio(symbol, ppm, perfect) for ppm in _CONTENTS),
    )


def _usual_ratio(symbol: str, ppm: float, state: MetalState) -> float:
    return predicted_residual({symbol: ppm}, state).ratio_273[1]


def _piece(state: MetalState) -> str:
    parts = [term.name for term in state_terms(state)]
    return ", ".join(part for part in parts if "not known" not in part) or "as stated"


def _warm_reading(typed: TypedRatio) -> WarmRatioReading:
    if typed.warm_celsius is None:
        raise MissingMeasurementError(
            "The upper temperature",
            reason="A ratio means nothing without both temperatures of the wire.",
            remedy="Measure it in the bath beside the wire and give it.",
        )
    reference = None
    if typed.reference_ratio is not None and typed.reference_value is not None:
        reference = WarmReference(
            ratio=_pure("ratio of the reference", typed.reference_ratio),
            percent_iacs=normal_input(
                "conductivity of the reference", *typed.reference_value, unit="% IACS"
            ),
        )
    return WarmRatioReading(
        ratio=_ratio(typed),
        lower_temperature=normal_input(
            "lower temperature", *typed.room_celsius, unit="degC"
        ),
        upper_temperature=normal_input(
            "upper temperature", *typed.warm_celsius, unit="degC"
        ),
        reference=reference,
    )


def _cold_reading(typed: TypedRatio, bath: Bath) -> ColdRatioReading:
    reference = None
    if typed.reference_ratio is not None and typed.reference_value is not None:
        reference = ColdReference(
            ratio=_pure("ratio of the reference", typed.reference_ratio),
            residual_ratio=_pure(
                "residual ratio of the reference", typed.reference_value
            ),
        )
    pressure, spread = typed.hectopascal
    return ColdRatioReading(
        bath=bath,
        ratio=_ratio(typed),
        room_temperature=normal_input(
            "room temperature of the wire", *typed.room_celsius, unit="degC"
        ),
        bath_temperature=bath_temperature(
            bath, pressure_hpa=pressure, spread_hpa=spread
        ),
        reference=reference,
    )


def _ratio(typed: TypedRatio) -> Input:
    if typed.ratio is not None:
        return _pure("ratio of the resistances", typed.ratio)
    if typed.room_ohm is None or typed.other_ohm is None:
        raise MissingMeasurementError(
            "The ratio",
            reason="Neither a ratio nor both resistances were given.",
            remedy="Give the ratio, or the resistance of the same piece at both "
            "temperatures.",
        )
    for name, (ohm, _) in (("ohm", typed.room_ohm), ("other-ohm", typed.other_ohm)):
        if not ohm > 0:
            raise ParameterError(name, ohm, allowed="a resistance above zero [ohm]")
    pair = (typed.other_ohm, typed.room_ohm)
    greater, smaller = pair if typed.kind == "warm" else pair[::-1]
    found = propagate(
        lambda greater, smaller: greater / smaller,
        (
            normal_input("greater", *greater, unit="ohm"),
            normal_input("smaller", *smaller, unit="ohm"),
        ),
        unit="1",
    )
    return _pure("ratio of the resistances", (found.value, found.standard_uncertainty))


def _pure(name: str, reading: Reading) -> Input:
    return normal_input(name, *reading, unit="1")


def _work_flags(work: WorkState) -> tuple[Flag, ...]:
    return (Flag("cold_work_unknown"),) if work == "unknown" else ()
