"""The network: a U-Net that works from half resolution down and answers at full."""

from collections.abc import Sequence
from itertools import pairwise

import torch
from torch import nn

WIDTHS = (40, 72, 128, 176, 224)
"""Channels at 1/2, 1/4, 1/8, 1/16 and 1/32 of the picture's resolution."""


class _Block(nn.Module):
    """Two 3 x 3 convolutions with a short cut around them."""

    def __init__(self, width: int) -> None:
        super().__init__()
        self.layers = nn.Sequential(
            nn.Conv2d(width, width, 3, padding=1, bias=False),
            nn.BatchNorm2d(width),
            nn.ReLU(inplace=True),
            nn.Conv2d(width, width, 3, padding=1, bias=False),
            nn.BatchNorm2d(width),
        )
        self.after = nn.ReLU(inplace=True)

    def forward(self, x: torch.Tensor) -> torch.Tensor:
        """Give planes of the same shape."""
        changed: torch.Tensor = self.after(x + self.layers(x))
        return changed


def _changed_width(wide_in: int, wide_out: int, size: int, stride: int) -> nn.Module:
    padding = size // 2 if stride == 1 else 0
    return nn.Sequential(
        nn.Conv2d(wide_in, wide_out, size, stride, padding, bias=False),
        nn.BatchNorm2d(wide_out),
        nn.ReLU(inplace=True),
    )


class StructureNet(nn.Module):
    """Picture in, planes of scores out.

    Parameters
    ----------
    n_planes : int
        Planes of scores.
    widths : sequence of int
        Channels from half resolution down.

    Notes
    -----
    A U-Net (Ronneberger et al. 2015) of residual blocks (He et al. 2016; both from
    memory), with sums where the first joined channels. Two rows and two columns of
    pixels become channels at the start, and scores become pixels at the end, so
    that nothing is computed at full resolution and yet no pixel is left out.
    """

    def __init__(self, n_planes: int, widths: Sequence[int] = WIDTHS) -> None:
        super().__init__()
        steps = list(pairwise(widths))
        self.start = nn.Sequential(
            nn.PixelUnshuffle(2), _changed_width(12, widths[0], 3, 1)
        )
        self.down_blocks = nn.ModuleList(_Block(width) for width in widths)
        self.down = nn.ModuleList(_changed_width(a, b, 2, 2) for a, b in steps)
        self.up = nn.ModuleList(nn.Conv2d(b, a, 1) for a, b in steps)
        self.up_blocks = nn.ModuleList(_Block(width) for width in widths[:-1])
        self.scores = nn.Sequential(
            nn.Conv2d(widths[0], 4 * n_planes, 1), nn.PixelShuffle(2)
        )

    def forward(self, picture: torch.Tensor) -> torch.Tensor:
        """Give scores (logits) of every plane.

        Parameters
        ----------
        picture : Tensor, shape (n, 3, n_rows, n_cols)
            sRGB in [0, 1]; both sides divide by 32.

        Returns
        -------
        Tensor, shape (n, n_planes, n_rows, n_cols)
            Scores.
        """
        x = self.start(picture)
        kept = []
        for block, down in zip(self.down_blocks, self.down, strict=False):
            x = block(x)
            kept.append(x)
            x = down(x)
        x = self.down_blocks[-1](x)
        for level in reversed(range(len(self.up))):
            coarse = nn.functional.interpolate(
                self.up[level](x), scale_factor=2.0, mode="nearest"
            )
            x = self.up_blocks[level](coarse + kept[level])
        scores: torch.Tensor = self.scores(x)
        return scores
