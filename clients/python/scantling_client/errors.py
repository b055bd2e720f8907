"""What can go wrong, as a small tree:

ScantlingError
├── Problem              the service answered with a problem document (RFC 9457)
├── BadQuantity          a quantity that the service has no use for, such as a time
└── ServiceUnreachable   no answer, after all tries
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class ProblemEntry:
    """One fault of a request: where, what is wrong and what would be accepted, and a code.

    `pointer` is a JSON Pointer into the body (`#/stock/0/length`), or the name of a query value (`query: length`).
    """

    pointer: str
    detail: str
    code: str


class ScantlingError(Exception):
    """Anything this client raises."""


class ServiceUnreachable(ScantlingError):
    """The service gave no answer."""


class BadQuantity(ScantlingError, ValueError):
    """A quantity that is neither a length, an angle, a force nor a mass."""


class Problem(ScantlingError):
    """The service refused a request; `errors` name each member at fault, `request_id` finds it in the service's log.

    `kind` is the last word of `type`, such as "invalid-request"; `retry_after` is how many seconds the service asks
    to be left alone, or None.
    """

    def __init__(
        self,
        status: int,
        body: Mapping[str, Any],
        request_id: str | None = None,
        retry_after: float | None = None,
    ) -> None:
        self._given = (status, dict(body), request_id, retry_after)
        self.status = status
        self.type = str(body.get("type", "about:blank"))
        self.kind = self.type.rsplit("/", 1)[-1]
        self.title = str(body.get("title", f"HTTP {status}"))
        self.detail = str(body.get("detail", ""))
        self.request_id = request_id
        self.retry_after = retry_after
        self.errors = tuple(_entry(e) for e in body.get("errors") or ())
        lines = [f"{status} {self.title}: {self.detail}".rstrip(": ")]
        lines += [f"  {e.pointer or '(request)'}: {e.detail}" for e in self.errors]
        if request_id:
            lines.append(f"  request {request_id}")
        super().__init__("\n".join(lines))

    def __reduce__(self) -> tuple[type["Problem"], tuple[Any, ...]]:
        """Let a problem travel from one process to another."""
        return type(self), self._given


def _entry(entry: Mapping[str, Any]) -> ProblemEntry:
    place = entry.get("pointer")
    if place is None and entry.get("name"):
        place = f"{entry.get('in', 'value')}: {entry['name']}"
    return ProblemEntry(str(place or ""), str(entry.get("detail", "")), str(entry.get("code", "")))
