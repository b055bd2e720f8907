"""What goes wrong at the door: a text that cannot be read, and a request that cannot be computed."""

from collections.abc import Iterable
from dataclasses import dataclass

_SHOWN = 40  # characters of the caller's own text repeated in a message


class MeasureError(ValueError):
    """A length, angle, amount of money, id or thickness that cannot be read.

    `message` is the whole sentence for people, `text` what was given (shortened), `position` the place in it,
    counted from 0 (None where no one character is at fault), `accepted` what would be taken instead, `code` a
    kebab-case word for programs. `at` leads to the member at fault where the value is a list or an object.
    """

    def __init__(
        self,
        message: str,
        *,
        text: str = "",
        position: int | None = None,
        accepted: str = "",
        code: str = "unreadable",
        at: tuple[str | int, ...] = (),
    ) -> None:
        super().__init__(message)
        self.message = message
        self.text = text
        self.position = position
        self.accepted = accepted
        self.code = code
        self.at = at

    def under(self, *segments: str | int) -> "MeasureError":
        """Return the same error as seen from outside: `segments` are put before `at`."""
        return MeasureError(
            self.message,
            text=self.text,
            position=self.position,
            accepted=self.accepted,
            code=self.code,
            at=(*segments, *self.at),
        )


@dataclass(frozen=True, slots=True)
class RequestProblem:
    """One fault of a request: a JSON Pointer to the member, what is wrong and would be accepted, and a code."""

    pointer: str
    detail: str
    code: str


class RequestError(ValueError):
    """A request that cannot be computed; `errors` holds every fault found, never none."""

    def __init__(self, errors: Iterable[RequestProblem]) -> None:
        self.errors: tuple[RequestProblem, ...] = tuple(errors)
        if not self.errors:
            raise ValueError("a RequestError needs at least one RequestProblem")
        super().__init__("; ".join(f"{e.pointer or '(the whole request)'}: {e.detail}" for e in self.errors))

    def __reduce__(self) -> tuple[type["RequestError"], tuple[tuple[RequestProblem, ...]]]:
        """Let the error cross from a worker process whole."""
        return (RequestError, (self.errors,))


def pointer(*segments: str | int) -> str:
    """Return the JSON Pointer (RFC 6901) to a member: `pointer("parts", 0, "a/b")` is `/parts/0/a~1b`."""
    return "".join("/" + str(s).replace("~", "~0").replace("/", "~1") for s in segments)


def shown(text: str) -> str:
    """Return the caller's text fit to stand in a message: quoted, shortened, control characters escaped."""
    short = text if len(text) <= _SHOWN else text[:_SHOWN] + "…"
    printable = "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in short)
    return f"«{printable}»"
