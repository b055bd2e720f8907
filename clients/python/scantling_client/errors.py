"""What can go wrong, as a small tree:

ScantlingError
├── Problem              the service answered with a problem document (RFC 9457)
└── ServiceUnreachable   no answer, after all tries
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class ProblemEntry:
    """One fault of a request: where (a JSON Pointer), what is wrong and would be accepted, and a code."""

    pointer: str
    detail: str
    code: str


class ScantlingError(Exception):
    """Anything this client raises."""


class ServiceUnreachable(ScantlingError):  # noqa: N818 - it says what is the matter
    """The service gave no answer."""


class Problem(ScantlingError):  # noqa: N818 - RFC 9457 calls it a problem
    """The service refused a request; `errors` name each member at fault, `request_id` finds it in the service's log."""

    def __init__(self, status: int, body: Mapping[str, Any], request_id: str | None = None) -> None:
        self.status = status
        self.type = str(body.get("type", "about:blank"))
        self.title = str(body.get("title", f"HTTP {status}"))
        self.detail = str(body.get("detail", ""))
        self.request_id = request_id
        self.errors = tuple(
            ProblemEntry(str(e.get("pointer", "")), str(e.get("detail", "")), str(e.get("code", "")))
            for e in body.get("errors") or ()
        )
        lines = [f"{status} {self.title}: {self.detail}".rstrip(": ")]
        lines += [f"  {e.pointer or '(request)'}: {e.detail}" for e in self.errors]
        if request_id:
            lines.append(f"  request {request_id}")
        super().__init__("\n".join(lines))
