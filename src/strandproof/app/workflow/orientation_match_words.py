"""What the orientations at distant places say, in sentences."""

from strandproof.app.workflow.orientation_figures import figures, length
from strandproof.grainsize.orientations import brandon_limit_deg
from strandproof.records.orientation_results import MatchChance, PlaceMatch

_ONE_IN_A_MILLION = 1e-6


def match_in_words(match: PlaceMatch, basis: str) -> list[str]:
    """Say whether places match, and how often separate grains would.

    Parameters
    ----------
    match : PlaceMatch
        The comparison.
    basis : str
        Step, share indexed and threshold, in brackets.

    Returns
    -------
    list of str
        Sentences.
    """
    first, *others = match.places
    shared = match.frame == "shared"
    lines = []
    for place in others:
        angle = place.from_first_deg if shared else place.from_first_axis_deg
        what = "orientation" if shared else "the direction along the strand"
        twin = ""
        if shared and place.from_first_twin_deg <= brandon_limit_deg(3):
            twin = "; the two are twin-related"
        lines.append(
            f"{first.name} and {place.name}: {what} differs by {angle:.1f}° "
            f"(tolerance {match.tolerance_deg:g}°){twin} {basis}."
        )
    lines += [
        f"Keep in mind: {place.name} holds more than one orientation "
        f"({place.agreeing} of {place.points} points agree)."
        for place in match.places
        if not place.is_one_orientation
    ]
    verdict = "match" if match.matches else "do not match"
    lines.append(
        f"The {len(match.places)} places, up to {length(match.distance_um)} apart, "
        f"{verdict} within {match.tolerance_deg:g}° {basis}."
    )
    return lines + _chances(match)


def _chances(match: PlaceMatch) -> list[str]:
    lines = [
        f"By chance, places in separate grains would match within "
        f"{match.tolerance_deg:g}° {_one_in(chance)}."
        for chance in match.chances
    ]
    if match.frame == "shared":
        lines.append(
            "Keep in mind: this holds only if all places were measured in one specimen "
            "frame; a strand mounted anew keeps its axis but not its twist."
        )
    else:
        lines.append(
            "Keep in mind: only what lies along the strand was compared; grains of one "
            "fibre without tilt agree in that always."
        )
    lines.append(
        "These chances leave out mix-ups, wrong frames and misreadings, which are "
        "often likelier than the smallest of them."
    )
    lines.append(
        "A match does not show that no boundary lies between the places; twins and "
        "stray crystals between them are not seen."
    )
    return lines


def _one_in(chance: MatchChance) -> str:
    if chance.chance <= 0.0 and chance.upper is not None:
        return (
            f"in at most 1 of {_rounded(1.0 / chance.upper)} cases, 95 % limit, with "
            f"{chance.texture} ({chance.method}, none found)"
        )
    limits = ""
    if chance.lower is not None and chance.upper is not None:
        limits = f", 95 % limits {chance.lower:.2g} to {chance.upper:.2g}"
    if chance.chance < _ONE_IN_A_MILLION:
        return (
            f"in under 1 of a million cases ({chance.chance:.1g}) with "
            f"{chance.texture} ({chance.method})"
        )
    return (
        f"in 1 of {_rounded(1.0 / chance.chance)} cases ({chance.chance:.2g}{limits}) "
        f"with {chance.texture} ({chance.method})"
    )


def _rounded(number: float) -> str:
    return f"{float(figures(number)):g}"
