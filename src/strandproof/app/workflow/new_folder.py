"""A folder for what is written: new or empty, so that nothing is written over."""

from pathlib import Path

from strandproof.errors import OutputExistsError, WriteFailedError


def require_new_folder(folder: Path) -> None:
    """Raise unless a folder is not there yet, or is empty.

    Parameters
    ----------
    folder : Path
        The folder.

    Raises
    ------
    OutputExistsError
        If it holds something, or is no folder.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise OutputExistsError(
            str(folder), what="it is no empty folder", remedy="Choose a new folder."
        )


def make_new_folder(folder: Path) -> None:
    """Make a folder, with those above it.

    Parameters
    ----------
    folder : Path
        The folder; it may be there, but only empty.

    Raises
    ------
    WriteFailedError
        If the system refuses.
    """
    require_new_folder(folder)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise WriteFailedError(folder, error.strerror or str(error)) from error
