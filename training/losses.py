"""The loss: each plane's own, weighed."""

import torch
import trained_planes as planes
from torch.nn import functional

Tensor = torch.Tensor

# Lines are few pixels among many: their planes count more, and overlap counts too.
_WEIGHTS = {
    planes.METAL: 0.5,
    planes.GRAIN_BOUNDARY: 4.0,
    planes.TWIN_BOUNDARY: 1.5,
    planes.SCRATCH: 0.4,
    planes.DEFECT: 0.3,
    planes.UNREADABLE: 0.5,
    planes.STRAND_CONTACT: 1.0,
    planes.DISTANCE: 0.5,
}
_OVERLAP = {planes.GRAIN_BOUNDARY: 0.5, planes.TWIN_BOUNDARY: 0.2}


def loss_of(scores: Tensor, targets: Tensor) -> tuple[Tensor, Tensor]:
    """Weigh the losses of all planes.

    Parameters
    ----------
    scores, targets : Tensor, shape (n, n_planes, n_rows, n_cols)
        Logits, and answers in [0, 1].

    Returns
    -------
    loss : Tensor
        To be made small.
    parts : Tensor, shape (n_planes,)
        Unweighed loss of each plane.

    Notes
    -----
    Cross-entropy with soft answers; where a spot cannot be read, nothing but that
    is asked. Overlap: soft Dice (Milletari et al. 2016, from memory).
    """
    each = functional.binary_cross_entropy_with_logits(
        scores, targets, reduction="none"
    )
    readable = 1 - targets[:, planes.UNREADABLE : planes.UNREADABLE + 1]
    weight = readable.expand_as(each).clone()
    weight[:, planes.UNREADABLE] = 1
    weight[:, planes.METAL] = 1
    # Boundaries matter on metal; resin teaches little once it is known.
    parts = (each * weight).sum((0, 2, 3)) / weight.sum((0, 2, 3)).clamp(min=1)
    loss = sum(share * parts[plane] for plane, share in _WEIGHTS.items())
    for plane, share in _OVERLAP.items():
        found = torch.sigmoid(scores[:, plane]) * readable[:, 0]
        true = targets[:, plane] * readable[:, 0]
        both = (found * true).sum()
        loss = loss + share * (
            1 - (2 * both + 1) / ((found**2).sum() + (true**2).sum() + 1)
        )
    return loss, parts.detach()
