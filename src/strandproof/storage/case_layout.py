"""Names inside a case folder, and the page that explains them."""

import re
from pathlib import Path, PurePosixPath

from strandproof.records.entries import FileReference

ENTRIES = "entries.jsonl"
FILES = "files"
PRIVATE = "private"
CACHE = "cache"
SET_ASIDE = "set-aside"
README = "README.txt"
LOCK = ".writer.lock"

README_TEXT = """\
HOW TO CHECK THIS CASE WITHOUT STRANDPROOF

entries.jsonl  the record: one entry a line, numbered from 1, never changed.
               Each line is JSON in canonical form (RFC 8785).
files/         the originals. The name of each file is its SHA-256.
private/       what must not leave; entries hold only a hash of it.
set-aside/     unfinished last lines left by a power cut, if there were any.
cache/         derived things; may be deleted at any time.

1. Originals. Run a SHA-256 program over each file under files/. The result must
   equal the name of the file (without its ending). On many systems:
       sha256sum files/*/*
2. Entries. Each entry holds "previous_sha256": it must equal the "sha256" of the
   line before (64 zeros in line 1).
3. One entry by hand. Take the line, remove the member "sha256" together with the
   comma before or after it, save without a line end, and run the SHA-256 program
   over it. The result must equal the "sha256" you removed. (Canonical form keeps
   members sorted by name and without spaces, so removing one member is enough.)
4. The head. The "sha256" of the last line is the head of the case. It is printed
   on every report. If the head printed on a report is not in this file, or lines
   follow it that the report does not know, the record was cut, continued or
   rewritten after that report. Steps 1 to 3 alone cannot find that.
"""


def original_path(reference: FileReference) -> PurePosixPath:
    """Give the place of an original inside the case folder.

    Parameters
    ----------
    reference : FileReference
        The file.

    Returns
    -------
    PurePosixPath
        For example ``files/ab/abcd....tif``.
    """
    found = re.search(r"\.[A-Za-z0-9]{1,8}$", reference.name)
    suffix = found.group().lower() if found else ""
    name = f"{reference.sha256}{suffix}"
    return PurePosixPath(FILES, reference.sha256[:2], name)


def is_case(folder: Path) -> bool:
    """Tell whether a folder holds a case.

    Parameters
    ----------
    folder : Path
        The folder.

    Returns
    -------
    bool
        True when it holds the entries.
    """
    return (folder / ENTRIES).is_file()
