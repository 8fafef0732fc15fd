"""Reading our own SVG drawings back: their words, shapes and descriptions."""

from xml.etree import ElementTree as ET

SVG = "{http://www.w3.org/2000/svg}"


def parsed(svg: str) -> ET.Element:
    """Parse a drawing that our own code made."""
    return ET.fromstring(str(svg))  # noqa: S314


def shapes(svg: ET.Element, name: str) -> list[ET.Element]:
    """Give all shapes of a kind, in order."""
    return list(svg.iter(f"{SVG}{name}"))


def written(svg: ET.Element) -> list[str]:
    """Give every line of text."""
    return [str(text.text) for text in shapes(svg, "text")]


def described(svg: ET.Element) -> tuple[str, str]:
    """Give title and description as the drawing refers to them."""
    by_id = {each.get("id"): str(each.text) for each in svg.iter() if each.get("id")}
    return (
        by_id[svg.get("aria-labelledby")],
        by_id[svg.get("aria-describedby")],
    )


def numbers(svg: ET.Element, *names: str) -> list[float]:
    """Give places of all shapes, to be held against the edges of the drawing."""
    found = [each.get(name) for each in svg.iter() for name in names]
    return [float(value) for value in found if value is not None]
