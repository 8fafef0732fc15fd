"""A hand-out names nothing, loses nothing, and is the same every time."""

import hashlib
import json
import zipfile
from base64 import b64decode
from pathlib import Path

import numpy as np
import pytest
import pyvips
from blinding_examples import (
    CODES,
    NAMES,
    RULES,
    coded_case,
    given_out,
    pixels,
    seal_of,
    sealed_case,
)
from reading_examples import lock
from workflow_examples import add, contents

from strandproof.app.workflow.blinding import (
    HandOutRequest,
    hand_out,
    hidden_names,
    names_found,
    open_list,
    read_hand_out,
    seal_list,
)
from strandproof.app.workflow.entering import open_case
from strandproof.errors import (
    DuplicateLabelError,
    ListOpenedError,
    NameFoundError,
    OutputExistsError,
    ParameterError,
    SealMismatchError,
)
from strandproof.records.entries import HandOut, Micrograph


def everything(folder: Path) -> list[bytes]:
    """All bytes of a hand-out, names of files and inner pictures included."""
    found = []
    for path in sorted(folder.rglob("*")):
        found.append(str(path.relative_to(folder)).encode())
        if path.is_file():
            data = path.read_bytes()
            found.append(data)
            if path.suffix == ".svg":
                inner = data.partition(b"base64,")[2].partition(b'"')[0]
                found.append(b64decode(inner))
    return found


def test_no_name_in_bytes_or_metadata(tmp_path: Path) -> None:
    """Searched here without the tool's own search: bytes, names, metadata fields."""
    target = tmp_path / "out"
    given_out(sealed_case(tmp_path, "A1"), target)
    whole = b"\n".join(everything(target)).lower()
    for name in NAMES:
        for encoding in ("utf-8", "utf-16-le", "utf-16-be"):
            assert name.lower().encode(encoding) not in whole, name
    for path in (target / "pictures").iterdir():
        image = pyvips.Image.new_from_file(str(path))
        words = " ".join(
            str(image.get(f)) for f in image.get_fields() if "file" not in f
        )
        assert not any(name.lower() in words.lower() for name in NAMES)
        assert not [
            f for f in image.get_fields() if f.startswith(("exif", "xmp", "png-"))
        ]


def test_the_originals_did_say_it(tmp_path: Path) -> None:
    """The test above could fail: what went in is full of names."""
    desk = sealed_case(tmp_path)
    kept = b"\n".join(p.read_bytes() for p in (desk.folder / "files").rglob("*.*"))
    assert b"Wexcombe Twine Works E1-s1-T" in kept
    assert b"Tern earphone lead, Wexcombe Twine Works E1-s1-L" in kept


def test_no_grey_value_is_lost(tmp_path: Path) -> None:
    target = tmp_path / "out"
    given_out(sealed_case(tmp_path), target)
    for number, code in enumerate(CODES):
        read = pyvips.Image.new_from_file(str(target / "pictures" / f"{code}-1.png"))
        assert np.array_equal(read.numpy(), pixels(number))


def test_names_are_codes_and_the_order_is_by_chance(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path)
    orders = set()
    for seed in range(6):
        made = given_out(desk, tmp_path / f"o{seed}", label=f"h{seed}", order_seed=seed)
        orders.add(tuple(each["name"] for each in made["pictures"]))
    assert len(orders) > 3
    for order in orders:
        assert sorted(order) == sorted(f"{code}-1" for code in CODES)


def test_same_input_same_bytes(tmp_path: Path) -> None:
    for place in ("a", "b"):
        (tmp_path / place).mkdir()
        desk = sealed_case(tmp_path / place)
        request = HandOutRequest(reader="A1", sealed_list="list-1", order_seed=5)
        hand_out(desk, "to-A1", request, tmp_path / f"{place}.zip")
    first, second = ((tmp_path / f"{x}.zip").read_bytes() for x in "ab")
    assert first == second
    with zipfile.ZipFile(tmp_path / "a.zip") as archive:
        moments = {info.date_time for info in archive.infolist()}
    assert moments == {(1980, 1, 1, 0, 0, 0)}


def test_contents_name_every_file_with_its_hash(tmp_path: Path) -> None:
    target = tmp_path / "out"
    made = given_out(sealed_case(tmp_path), target)
    assert made["counting_rules"] == list(RULES)
    assert made["pictures"][0]["pixel_size_um"] == 0.1726
    assert len(made["files"]) == 12
    for name, sha256 in made["files"].items():
        assert hashlib.sha256((target / name).read_bytes()).hexdigest() == sha256
    listed = (target / "hand-out.json").read_bytes()
    assert hashlib.sha256(listed).hexdigest() == seal_of(target)


def test_lines_neither_name_the_original_nor_their_seed(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path)
    target = tmp_path / "out"
    given_out(desk, target)
    originals = {
        each.file_sha256 for each in open_case(desk.folder).records(Micrograph)
    }
    assert len(originals) == 4
    whole = b"\n".join(everything(target)).decode("latin-1")
    assert not any(sha256 in whole for sha256 in originals)
    lines = json.loads((target / "lines" / "DQV-835-1.json").read_text("utf-8"))
    assert "seed" not in lines
    assert len(lines["lines"]) == 2


def test_case_holds_the_seal_but_not_which_is_which(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path)
    target = tmp_path / "out"
    given_out(desk, target)
    entries = (desk.folder / "entries.jsonl").read_text("utf-8").splitlines()
    made = open_case(desk.folder).record(HandOut, "to-A1")
    assert made.seal_sha256 == seal_of(target)
    coded = [line for line in entries if "DQV-835" in line]
    assert coded
    assert not any("E2-s1" in line for line in coded)


@pytest.mark.parametrize(
    ("rule", "place"),
    [
        ("as for the Tern", "'Tern' in READ-ME-FIRST.txt"),
        ("ask LANTERN ROW", "'Lantern Row' in hand-out.json"),
        ("E2 has many", "exhibit 'E2' in READ-ME-FIRST.txt"),
        ("see E1-s1-L", "'E1-s1-L'"),
        ("lot 3107", "lot mark '3107'"),
        ("tern-lead-E1-s1-L.png", "file of a micrograph"),
    ],
)
def test_a_name_is_found_and_nothing_is_written(
    tmp_path: Path, rule: str, place: str
) -> None:
    desk = sealed_case(tmp_path)
    before = contents(desk.folder)
    with pytest.raises(NameFoundError, match="The hand-out is refused") as refusal:
        given_out(desk, tmp_path / "out", counting_rules=(rule,))
    assert any(place in each for each in refusal.value.places), refusal.value.places
    assert not (tmp_path / "out").exists()
    assert contents(desk.folder) == before


def test_the_search_finds_names_in_metadata_bytes_and_inner_pictures(
    tmp_path: Path,
) -> None:
    names = hidden_names(open_case(coded_case(tmp_path).folder))
    told = next(tmp_path.glob("*-E1-s1-L.png")).read_bytes()
    assert any("metadata" in each for each in names_found({"a.png": told}, names))
    wide = "wexcombe twine works".encode("utf-16-le")
    assert any("bytes of" in each for each in names_found({"b.bin": wide}, names))
    assert any("its name" in each for each in names_found({"E1/x.txt": b""}, names))
    assert names_found({"c.txt": b"row 3, pattern, internal, 31070"}, names) == ()


def test_a_synthetic_picture_keeps_its_mark(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path)
    fields = open_case(desk.folder).current["micrograph"]["E1-s1-L-1"].body
    data = {**fields.model_dump(mode="json"), "id": "drawn", "synthetic": True}
    add(desk, [("micrograph", data)])
    target = tmp_path / "out"
    made = given_out(desk, target, micrographs=("drawn",))
    assert made["pictures"][0]["synthetic"] is True
    assert b"Synthetic" in next((target / "pictures").iterdir()).read_bytes()
    assert "SYNTHETIC" in (target / "READ-ME-FIRST.txt").read_text("utf-8")


def test_verdicts_alone_need_no_lines(tmp_path: Path) -> None:
    target = tmp_path / "out"
    given_out(sealed_case(tmp_path), target, straight_lines=0)
    assert not (target / "lines").exists()
    assert "sheets/" not in (target / "READ-ME-FIRST.txt").read_text("utf-8")


def test_codes_of_sections_do_where_no_list_was_sealed(tmp_path: Path) -> None:
    desk = coded_case(tmp_path)
    with pytest.raises(ParameterError, match="micrographs was given as 'none'"):
        given_out(desk, tmp_path / "none", sealed_list=None)
    section = {"id": "E1-s2-L", "specimen": "E1-s1", "direction": "longitudinal"}
    shown = open_case(desk.folder).current["micrograph"]["E1-s1-L-1"].body
    picture = {**shown.model_dump(mode="json"), "id": "f9", "section": "E1-s2-L"}
    drafts = [
        ("section", {**section, "blind_code": "GVF-584"}),
        ("micrograph", picture),
    ]
    add(desk, drafts)
    made = given_out(desk, tmp_path / "out", sealed_list=None)
    assert [each["name"] for each in made["pictures"]] == ["GVF-584-1"]


def test_refusals_leave_nothing(tmp_path: Path) -> None:
    desk = sealed_case(tmp_path)
    given_out(desk, tmp_path / "out")
    before = contents(desk.folder)
    with pytest.raises(DuplicateLabelError, match="to-A1"):
        given_out(desk, tmp_path / "second")
    assert not (tmp_path / "second").exists()
    with pytest.raises(OutputExistsError, match="no empty folder"):
        given_out(desk, tmp_path / "out", label="other")
    with pytest.raises(ParameterError, match="micrographs of coded sections"):
        given_out(
            desk,
            tmp_path / "third",
            label="x",
            sealed_list=None,
            micrographs=("E1-s1-L-1",),
        )
    assert contents(desk.folder) == before


def test_no_hand_out_of_an_opened_list(tmp_path: Path) -> None:
    desk = coded_case(tmp_path)
    seal_list(desk, "list-1", CODES)
    common = {"reader": "A1", "blind": True, "verdict": "boundaries"}
    for number, thing in enumerate(CODES.values()):
        reading = {
            **common,
            "id": f"r{number}",
            "reads": thing,
            "read_at": desk.clock(),
        }
        add(desk, [("reading", reading)])
        lock(desk, [f"r{number}"], "A1")
    open_list(desk, "list-1")
    with pytest.raises(ListOpenedError, match="handing out its codes is refused"):
        given_out(desk, tmp_path / "out")


def test_a_changed_hand_out_is_noticed(tmp_path: Path) -> None:
    target = tmp_path / "out"
    given_out(sealed_case(tmp_path), target)
    contents_, seal, _ = read_hand_out(target)
    assert seal == seal_of(target)
    assert contents_.reader == "A1"
    (target / "lines" / "DQV-835-1.json").write_text("{}", encoding="utf-8")
    with pytest.raises(SealMismatchError, match="lines/DQV-835-1.json"):
        read_hand_out(target)
    with pytest.raises(ParameterError, match="with hand-out.json"):
        read_hand_out(tmp_path / "H7")
