"""How a question, a check or a site ends."""

import enum


class Outcome(str, enum.Enum):
    """How a question, a check or a site ends, by the word of the documents. None of them is true or false."""

    ANSWERED = "answered"
    NO = "no"
    HOLDS = "holds"
    FAILS = "fails"
    LOADWORTHY = "loadworthy"
    NOT_LOADWORTHY = "not-loadworthy"
    CANNOT_TELL = "cannot-tell"

    def __str__(self) -> str:
        return self.value

    def __bool__(self) -> bool:
        raise TypeError(f"an outcome has no truth value; write `outcome is Outcome.{self.name}`")
