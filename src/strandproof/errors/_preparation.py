"""Faults of counting what was not prepared on record."""

from strandproof.errors._base import StrandproofError


class PreparationIncompleteError(StrandproofError, ValueError):
    """Counts were to be entered for a section whose preparation log has holes.

    Parameters
    ----------
    section : str
        Short name of the section.
    missing : tuple of str
        What is missing.
    """

    def __init__(self, section: str, missing: tuple[str, ...]) -> None:
        super().__init__(
            f"Section {section} is incomplete; missing: {', '.join(missing)}. It may "
            "be shown, not counted: without these pictures nobody can tell damage from "
            "structure. Nothing was entered. Add them with 'strandproof prepare', or "
            "as micrographs whose etch step names them."
        )
        self.section = section
        self.missing = missing
