"""A file that is to be written, checked before the work for it is done."""

from pathlib import Path

from strandproof.errors import OutputExistsError


def require_new_file(target: Path | None) -> None:
    """Refuse a file that is there.

    Parameters
    ----------
    target : Path or None
        A file that is to be written; None for none.

    Raises
    ------
    OutputExistsError
        If something of that name is there.
    """
    if target is not None and target.exists():
        raise OutputExistsError(
            str(target), what="a file is there", remedy="Choose another name."
        )
