"""What a command answered, and the type of a fixture that runs one."""

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True)
class Answer:
    """What a command answered."""

    code: int
    out: str
    err: str

    @property
    def words(self) -> str:
        """Everything said, in one line and without the frame around misuse."""
        both = f"{self.out} {self.err}".replace("│", " ")
        return " ".join(both.split())


Command = Callable[..., Answer]
