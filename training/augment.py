"""Changes of light and camera made on the GPU, the same section many times over."""

import torch
from torch.nn import functional

Tensor = torch.Tensor


def turned(batch: Tensor, generator: torch.Generator) -> Tensor:
    """Turn and mirror a whole batch by one of the eight ways.

    Parameters
    ----------
    batch : Tensor, shape (n, n_channels, n_rows, n_rows)
        Square pictures with their targets.
    generator : Generator
        Source of chance (on the CPU).

    Returns
    -------
    Tensor
        The same, turned.
    """
    way = int(torch.randint(8, (1,), generator=generator))
    changed = torch.rot90(batch, way % 4, (2, 3))
    return changed.flip(3) if way >= 4 else changed


def as_it_is(pictures: Tensor, _generator: torch.Generator) -> Tensor:
    """Change nothing, for an ablation."""
    return pictures


def relit(pictures: Tensor, generator: torch.Generator) -> Tensor:
    """Change light, colour, sharpness and noise of each picture by chance.

    Parameters
    ----------
    pictures : Tensor, shape (n, 3, n_rows, n_cols)
        sRGB in [0, 1].
    generator : Generator
        Source of chance on the pictures' device.

    Returns
    -------
    Tensor
        Pictures in [0, 1], in steps of 8 bits.
    """
    n = pictures.shape[0]

    def uniform(low: float, high: float, *shape: int) -> Tensor:
        drawn = torch.rand((n, *shape), generator=generator, device=pictures.device)
        return low + (high - low) * drawn.reshape(n, *shape)

    def chance(share: float) -> Tensor:
        return uniform(0, 1, 1, 1, 1) < share

    x = torch.where(chance(0.25), pictures + _mottle(pictures, generator), pictures)
    x = torch.where(chance(0.15), _coarse(x), x)
    x = torch.where(chance(0.15), x.mean(1, keepdim=True).expand_as(x), x)
    x = torch.where(chance(0.35), x * uniform(0.8, 1.2, 3, 1, 1), x)
    x = torch.where(chance(0.15), x[:, torch.randperm(3)], x)
    x = torch.where(chance(0.25), _blurred(x), x)
    x = torch.where(chance(0.12), x + uniform(0.3, 1.2, 1, 1, 1) * (x - _blurred(x)), x)
    gamma = torch.exp(uniform(-0.5, 0.5, 1, 1, 1))
    x = torch.where(chance(0.6), x.clamp(1e-4, 1) ** gamma, x)
    x = torch.where(
        chance(0.6),
        (x - 0.5) * uniform(0.6, 1.5, 1, 1, 1) + 0.5 + uniform(-0.15, 0.15, 1, 1, 1),
        x,
    )
    noise = torch.randn(x.shape, generator=generator, device=x.device)
    grey = chance(0.5)
    noise = torch.where(grey, noise[:, :1].expand_as(noise), noise)
    x = torch.where(chance(0.3), x + noise * uniform(0.0, 0.05, 1, 1, 1), x)
    return (x.clamp(0, 1) * 255).round() / 255


def _blurred(x: Tensor) -> Tensor:
    """Blur by about 0.8 px."""
    line = torch.tensor([0.08, 0.24, 0.36, 0.24, 0.08], device=x.device, dtype=x.dtype)
    kernel = (line[:, None] * line[None, :]).expand(3, 1, 5, 5)
    return functional.conv2d(
        functional.pad(x, (2, 2, 2, 2), mode="replicate"), kernel, groups=3
    )


def _mottle(x: Tensor, generator: torch.Generator) -> Tensor:
    """Uneven staining and film: soft noise of one coarseness, colour by colour."""
    n, _, n_rows, n_cols = x.shape
    step = int(2 ** torch.randint(2, 6, (1,)).item())
    shape = (n, 3, n_rows // step, n_cols // step)
    noise = torch.randn(shape, generator=generator, device=x.device)
    noise = 0.6 * noise + 0.4 * noise[:, :1]
    amount = 0.06 * torch.rand((n, 1, 1, 1), generator=generator, device=x.device)
    return amount * functional.interpolate(noise, (n_rows, n_cols), mode="bilinear")


def _coarse(x: Tensor) -> Tensor:
    """Half the pixels, drawn large again, as careless enlarging does."""
    small = functional.avg_pool2d(x, 2)
    return functional.interpolate(small, scale_factor=2.0, mode="bilinear")
