"""All disk access: case folders, originals, picture files, written results.

Imports `records`, `quantity` and `errors`. Nothing here computes about copper.

- `create_case`, `CaseWriter`, `read_case`, `verify_case`: the case folder;
- `read_picture`: a picture for measuring, with all that its file says;
- `read_orientation_table`: a laboratory's table of crystal orientations;
- `read_picture_scale`: what of that can pass for a microscope's scale;
- `write_labels`, `write_overlay`, `write_output_file`: results, whole or not at all.
"""

from strandproof.storage.case_reading import CaseContents, original_file, read_case
from strandproof.storage.case_writing import (
    Addition,
    CaseWriter,
    Original,
    create_case,
)
from strandproof.storage.orientation_encoding import (
    angle_remark,
    encode_orientation_table,
)
from strandproof.storage.orientation_tables import read_orientation_table
from strandproof.storage.picture_files import write_output_file
from strandproof.storage.picture_metadata import SYNTHETIC_KEY, PixelSizeFromFile
from strandproof.storage.picture_scale import PictureScale, read_picture_scale
from strandproof.storage.picture_writing import (
    encode_png,
    preview_jpeg,
    preview_png,
    write_labels,
    write_overlay,
)
from strandproof.storage.pictures import DecodedPicture, read_picture
from strandproof.storage.verification import Progress, Verification, verify_case

__all__ = [
    "SYNTHETIC_KEY",
    "Addition",
    "CaseContents",
    "CaseWriter",
    "DecodedPicture",
    "Original",
    "PictureScale",
    "PixelSizeFromFile",
    "Progress",
    "Verification",
    "angle_remark",
    "create_case",
    "encode_orientation_table",
    "encode_png",
    "original_file",
    "preview_jpeg",
    "preview_png",
    "read_case",
    "read_orientation_table",
    "read_picture",
    "read_picture_scale",
    "verify_case",
    "write_labels",
    "write_output_file",
    "write_overlay",
]
