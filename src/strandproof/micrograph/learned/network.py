"""The packaged network, loaded once."""

import os
from functools import cache
from importlib.resources import files

import numpy as np
import numpy.typing as npt
import onnxruntime

Bytes = npt.NDArray[np.uint8]

_FILE = "structure.onnx"
_MOST_THREADS = 8


def answers(picture: Bytes) -> Bytes:
    """Run the network on a picture.

    Parameters
    ----------
    picture : ndarray of uint8, shape (3, n_rows, n_cols)
        sRGB; both sides divide by 32.

    Returns
    -------
    ndarray of uint8, shape (n_planes, n_rows, n_cols)
        Probability of each plane of `learned.planes`, 255 for 1.
    """
    (planes,) = _session().run(None, {"picture": picture[None]})
    found: Bytes = planes[0]
    return found


@cache
def _session() -> onnxruntime.InferenceSession:
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = min(os.cpu_count() or 1, _MOST_THREADS)
    options.inter_op_num_threads = 1
    # Waiting threads that spin would take the cores from the rest of the program.
    options.add_session_config_entry("session.intra_op.allow_spinning", "0")
    # A kept arena would hold the largest tile's memory for good.
    options.enable_cpu_mem_arena = False
    path = files("strandproof.micrograph.learned") / "data" / _FILE
    return onnxruntime.InferenceSession(
        path.read_bytes(), options, providers=["CPUExecutionProvider"]
    )
