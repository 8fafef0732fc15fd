"""Weights to the file that the package carries.

Run: python training/export.py FOLDER/average.pt src/strandproof/micrograph/learned/data
"""

import sys
from pathlib import Path

import numpy as np
import onnx
import torch
from network import StructureNet
from onnx import TensorProto, helper, numpy_helper
from torch import nn
from trained_planes import ANSWERED, N_PLANES

NAME = "structure.onnx"


class _InBytes(nn.Module):
    """Bytes in, bytes out: 255 stands for a probability of 1."""

    def __init__(self, network: StructureNet) -> None:
        super().__init__()
        self.network = network

    def forward(self, picture: torch.Tensor) -> torch.Tensor:
        """Give planes of bytes from an sRGB picture of bytes."""
        scores = self.network(picture.float() / 255)[:, list(ANSWERED)]
        return torch.round(torch.sigmoid(scores) * 255).to(torch.uint8)


def exported(weights: Path, folder: Path) -> Path:
    """Write the network with weights of 16 bits.

    Parameters
    ----------
    weights : Path
        Averaged weights of a run.
    folder : Path
        Where the file goes.

    Returns
    -------
    Path
        The file.
    """
    network = StructureNet(N_PLANES)
    network.load_state_dict(torch.load(weights, map_location="cpu"))
    network.eval()
    path = folder / NAME
    torch.onnx.export(
        _InBytes(network),
        (torch.zeros(1, 3, 64, 64, dtype=torch.uint8),),
        str(path),
        input_names=["picture"],
        output_names=["planes"],
        opset_version=17,
        dynamo=False,
        dynamic_axes={name: {2: "rows", 3: "cols"} for name in ("picture", "planes")},
    )
    model = onnx.load(path)
    _in_half_precision(model)
    onnx.checker.check_model(model)
    onnx.save(model, path)
    return path


def _in_half_precision(model: onnx.ModelProto) -> None:
    """Store large weights in 16 bits; the runtime widens them once at its start."""
    graph = model.graph
    casts = []
    for weight in list(graph.initializer):
        values = numpy_helper.to_array(weight)
        if values.dtype != np.float32 or values.size < 1000:
            continue
        graph.initializer.remove(weight)
        graph.initializer.append(
            numpy_helper.from_array(values.astype(np.float16), f"{weight.name}.half")
        )
        casts.append(
            helper.make_node(
                "Cast", [f"{weight.name}.half"], [weight.name], to=TensorProto.FLOAT
            )
        )
    for cast in reversed(casts):
        graph.node.insert(0, cast)


if __name__ == "__main__":
    print(exported(Path(sys.argv[1]), Path(sys.argv[2])))
