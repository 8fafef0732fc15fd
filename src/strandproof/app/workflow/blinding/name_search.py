"""Looking for names that a reader must not see: in words, metadata and bytes."""

import json
import re
from base64 import b64decode
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from xml.etree import ElementTree as ET

from strandproof.app.workflow.blinding.contents import FIXED_WORDS
from strandproof.records.case_state import CaseState
from strandproof.records.entries import (
    Case,
    Claim,
    ConductorType,
    Exhibit,
    Micrograph,
    Portion,
    Purchase,
    Section,
    SpeakerRole,
    Specimen,
)
from strandproof.storage.picture_png import png_chunks

# A name of six letters or more turns up by chance in ten million bytes of picture data
# about once in 400 000 hand-outs, capitals or not; shorter ones would turn up often.
_SHORTEST_IN_BYTES = 6
_SHORTEST_WORD = 4
# Pixels and sizes: no words, but bytes that may look like a short name.
_NO_WORDS = {"IDAT", "IHDR", "IEND"}
_INNER_PICTURE = "data:image/png;base64,"
_ENCODINGS = ("utf-8", "utf-16-le", "utf-16-be")


@dataclass(frozen=True, slots=True)
class HiddenName:
    """A name that a reader must not see.

    Parameters
    ----------
    name : str
        The name.
    what : str
        What it names, for example ``"product"``.
    whole : bool
        True for a name as it was entered; False for a word out of one, which is
        looked for only as it is spelled, capitals included.
    """

    name: str
    what: str
    whole: bool = True


def hidden_names(state: CaseState) -> tuple[HiddenName, ...]:
    """Gather every name of a case that would tell a reader which piece it is.

    Parameters
    ----------
    state : CaseState
        State of the case.

    Returns
    -------
    tuple of HiddenName
        Products, makers, shops, exhibits with their words and marks, pieces, sections,
        micrographs, files of micrographs; then the proper names within the first ones.
    """
    spoken = [
        each for each in state.records(Claim) if each.speaker_role != SpeakerRole.TESTER
    ]
    named = [
        *(HiddenName(each.speaker, "speaker of a claim") for each in spoken),
        *(HiddenName(each.product, "product") for each in state.records(Claim)),
        *(HiddenName(each.seller, "seller") for each in state.records(Purchase)),
        *(HiddenName(each.product, "product") for each in state.records(Purchase)),
        *_of_exhibits(state),
    ]
    things = [
        *(HiddenName(each.title, "title of the case") for each in state.records(Case)),
        *(HiddenName(each.lot_mark, "lot mark") for each in state.records(Exhibit)),
        *(
            HiddenName(each.id, kind)
            for record, kind in (
                (Exhibit, "exhibit"),
                (Portion, "portion"),
                (ConductorType, "conductor type"),
                (Specimen, "specimen"),
                (Section, "section"),
                (Micrograph, "micrograph"),
            )
            for each in state.records(record)
        ),
        *_files(state),
    ]
    whole = [each for each in (*named, *things) if len(each.name.strip()) > 1]
    return tuple(dict.fromkeys((*whole, *_single_words(named))))


def names_found(
    files: Mapping[str, bytes], names: Iterable[HiddenName]
) -> tuple[str, ...]:
    """Search files for names: file names, words, metadata, and all bytes.

    A name as entered is looked for without regard to capitals: as a word in every text
    (file names, JSON words, table cells, words of a drawing, chunks of a picture other
    than its pixels), and from six letters on in all bytes, as UTF-8 and as UTF-16.
    Numbers of a JSON file or a drawing are no words.

    Parameters
    ----------
    files : mapping of str to bytes
        Content by name.
    names : iterable of HiddenName
        What must not be there.

    Returns
    -------
    tuple of str
        Where which name was found; empty when none was.
    """
    searched = tuple(names)
    found: list[str] = []
    for file, content in files.items():
        texts = [("its name", file), *texts_of(file, content)]
        folded = content.lower()
        for name in searched:
            for where, text in texts:
                if _word_in(name, text):
                    found.append(f"the {name.what} {name.name!r} in {file} ({where})")
            if _in_bytes(name, folded):
                found.append(f"the {name.what} {name.name!r} in the bytes of {file}")
    return tuple(dict.fromkeys(found))


def texts_of(file: str, content: bytes) -> Iterator[tuple[str, str]]:
    """Give the words that a file shows to whoever opens it.

    Parameters
    ----------
    file : str
        Its name; the ending says how to read it.
    content : bytes
        Its bytes.

    Yields
    ------
    where, text : str
        Place in words, and the text.
    """
    ending = file.rpartition(".")[2].lower()
    if ending == "png":
        for name, data, _ in png_chunks(file, content):
            if name not in _NO_WORDS:
                yield f"metadata {name}", data.decode("latin-1")
    elif ending == "json":
        for text in _json_words(json.loads(content)):
            yield "a word in it", text
    elif ending == "svg":
        yield from _drawing_words(content)
    else:
        yield "its text", content.decode("utf-8", errors="replace")


def _drawing_words(content: bytes) -> Iterator[tuple[str, str]]:
    for element in ET.fromstring(content).iter():  # noqa: S314 - drawn by ourselves
        yield "its words", element.text or ""
        for value in element.attrib.values():
            if value.startswith(_INNER_PICTURE):
                inner = b64decode(value.removeprefix(_INNER_PICTURE))
                yield from texts_of("inner picture.png", inner)
            elif not _is_geometry(value):
                yield "an attribute", value


def _is_geometry(value: str) -> bool:
    return re.fullmatch(r"[-+.\d\s,px]*", value) is not None


def _json_words(data: object) -> Iterator[str]:
    if isinstance(data, str):
        yield data
    elif isinstance(data, list):
        for each in data:
            yield from _json_words(each)
    elif isinstance(data, dict):
        for key, value in data.items():
            yield key
            yield from _json_words(value)


def _word_in(name: HiddenName, text: str) -> bool:
    flags = re.IGNORECASE if name.whole else 0
    pattern = r"\s+".join(map(re.escape, name.name.split()))
    return re.search(rf"(?<![\w.]){pattern}(?![\w])", text, flags) is not None


def _in_bytes(name: HiddenName, folded: bytes) -> bool:
    text = name.name.strip().lower()
    if not name.whole or len(text) < _SHORTEST_IN_BYTES:
        return False
    return any(text.encode(encoding) in folded for encoding in _ENCODINGS)


def _of_exhibits(state: CaseState) -> Iterator[HiddenName]:
    for each in state.records(Exhibit):
        yield HiddenName(each.description, "description of an exhibit")
        yield HiddenName(each.provenance, "provenance")


def _files(state: CaseState) -> Iterator[HiddenName]:
    for each in state.records(Micrograph):
        reference = state.files.get(each.file_sha256)
        if reference is not None:
            yield HiddenName(reference.name, "file of a micrograph")
            yield HiddenName(reference.name.rpartition(".")[0], "file of a micrograph")


def _single_words(names: Iterable[HiddenName]) -> Iterator[HiddenName]:
    """Give the proper names within names: capitalised words of four letters or more.

    A word that every hand-out says anyway, such as Mark, tells nothing.
    """
    own = set(re.findall(r"\w+", FIXED_WORDS))
    for each in names:
        for word in re.findall(r"\b[^\W\d_]+\b", each.name):
            if len(word) >= _SHORTEST_WORD and word[0].isupper() and word not in own:
                yield HiddenName(word, f"word of a {each.what}", whole=False)
