"""Faults of claims and of the pieces that are kept for maker and referee."""

from strandproof.errors._base import StrandproofError


class KeptPartError(StrandproofError, ValueError):
    """A maker's or referee's portion was to be used up too early.

    Parameters
    ----------
    portions : tuple of str
        The portions.
    reasons : tuple of str
        Why they must stay whole, in words.
    """

    def __init__(self, portions: tuple[str, ...], reasons: tuple[str, ...]) -> None:
        verb = "is" if len(portions) == 1 else "are"
        super().__init__(
            f"{', '.join(portions)} {verb} kept whole for the maker or a referee: "
            f"{'; '.join(reasons)}. Nothing was entered. Take the test part, or wait "
            "until a version is published and every reply window is closed; a loss is "
            "entered as 'lost', a part sent to its receiver as a hand-over."
        )
        self.portions = portions


class ClaimQuestionsError(StrandproofError, ValueError):
    """A claim lacks what makes it a claim: speaker, medium, date, words, file.

    Parameters
    ----------
    questions : tuple of str
        What is still to be answered, as questions.
    """

    def __init__(self, questions: tuple[str, ...]) -> None:
        super().__init__(
            f"This claim cannot be saved yet. {' '.join(questions)} "
            "Nothing was changed; answer and enter it again."
        )
        self.questions = questions


class WordsFoundError(StrandproofError, ValueError):
    """Words were said to be absent from a copy in which they stand.

    Parameters
    ----------
    capture : str
        The copy.
    words : tuple of str
        The words that stand there.
    """

    def __init__(self, capture: str, words: tuple[str, ...]) -> None:
        listed = ", ".join(f"“{each}”" for each in words)
        super().__init__(
            f"Capture {capture} holds {listed}, so it cannot be entered as not said "
            "there. Nothing was changed. Name the words with --found, or leave the "
            "answer to the program."
        )


class NoTextError(StrandproofError, ValueError):
    """The program was asked to search a copy that is no text.

    Parameters
    ----------
    capture : str
        The copy.
    name : str
        Name of its file.
    """

    def __init__(self, capture: str, name: str) -> None:
        super().__init__(
            f"Capture {capture} ({name}) is no text that the program can search. "
            "Nothing was changed. Look through it, and enter what you found with "
            "--looked-through and --found."
        )
