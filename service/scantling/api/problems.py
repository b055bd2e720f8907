"""Problem documents (RFC 9457): the catalogue, the exception, and what becomes of every 4xx and 5xx.

Each kind of problem has a slug, one title and one status; `type` is `/v1/problems/<slug>`, which can be fetched.
`errors` holds one entry a fault: `pointer` (JSON Pointer, RFC 6901, as a URI fragment) into the request body, or
`in` and `name` for a query, path or header value; `detail` for people; `code` for programs.
"""

import json
import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from urllib.parse import quote

from starlette.responses import Response
from starlette.types import Scope

PROBLEM_TYPE = "application/problem+json"


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of problem: what it is called, what it means, how to mend it, and an example of `detail`."""

    slug: str
    status: int
    title: str
    meaning: str
    remedy: str
    example: str


_KINDS = (
    Kind(
        "not-json",
        400,
        "Body is not JSON",
        "The body could not be read as one JSON value in UTF-8.",
        "Send one JSON object. Look at the place named in the detail: a comma or a closing bracket is often missing.",
        "The body is not JSON: Expecting ',' delimiter at character 41.",
    ),
    Kind(
        "bad-request",
        400,
        "Request cannot be read",
        "The request's head does not make sense to the service.",
        "Check the address and the headers that the client sends.",
        "The request could not be read.",
    ),
    Kind(
        "host-not-allowed",
        400,
        "Host not allowed",
        "The service was asked for under a name it was not told to answer to. This guards a home network against web "
        "pages that point a name of their own at it.",
        "Use one of the allowed names, or add the name to SCANTLING_ALLOWED_HOSTS.",
        "This service does not answer to the host name it was asked for under.",
    ),
    Kind(
        "origin-not-allowed",
        400,
        "Origin not allowed",
        "A web page of another origin asked to call the service, and that origin is not on the list.",
        "Add the page's origin to SCANTLING_CORS_ORIGINS.",
        "Pages of this origin may not call the service.",
    ),
    Kind(
        "not-found",
        404,
        "Nothing there",
        "No resource has this address.",
        "GET /v1 lists the addresses; the catalogues list their ids.",
        "No table is called 'timber'; there are: fasteners, materials.",
    ),
    Kind(
        "method-not-allowed",
        405,
        "Method not allowed",
        "The address exists but does not take this method.",
        "Use a method that the Allow header lists.",
        "DELETE is not allowed here; allowed: GET, HEAD, OPTIONS.",
    ),
    Kind(
        "not-acceptable",
        406,
        "No such representation",
        "The answer cannot be given in any of the media types asked for.",
        "Ask for one of the types in `available`, with the Accept header or with ?format=.",
        "The answer comes as application/json or text/csv; image/png was asked for.",
    ),
    Kind(
        "too-large",
        413,
        "Body too large",
        "The request body is larger than the service takes.",
        "Split the request, or raise SCANTLING_BODY_LIMIT.",
        "The body is larger than 2097152 bytes.",
    ),
    Kind(
        "unsupported-media-type",
        415,
        "Body is not application/json",
        "The body was not sent as application/json, or it was sent compressed.",
        "Send the header Content-Type: application/json and no Content-Encoding.",
        "The body was sent as text/plain; send it as application/json.",
    ),
    Kind(
        "invalid-request",
        422,
        "Request does not fit",
        "The body or a query value is well-formed but cannot be computed: each entry of `errors` says where, what was "
        "found and what would be accepted.",
        "Mend the members that `errors` points at and send the request again.",
        "1 member does not fit: #/stock/0/length: 46085 looks like a fraction that a spreadsheet turned into a date.",
    ),
    Kind(
        "answer-too-large",
        422,
        "Answer too large",
        "The request can be computed, but its answer takes more bytes than the service sends.",
        "Ask for less at a time.",
        "The answer takes 50000000 bytes; at most 33554432 are sent.",
    ),
    Kind(
        "too-many-requests",
        429,
        "Too many jobs from one client",
        "This client has as many jobs running as one client may have.",
        "Wait for as many seconds as Retry-After says, then send the request again; it is safe to repeat.",
        "2 jobs are running for this client already.",
    ),
    Kind(
        "internal",
        500,
        "The service failed",
        "Something went wrong inside the service. The log has the details under the request id.",
        "Report it with the request id and, if you can, the request.",
        "The service failed on this request; its log has the details under the request id.",
    ),
    Kind(
        "busy",
        503,
        "All workers are busy",
        "As many jobs are running and waiting as the service takes.",
        "Wait for as many seconds as Retry-After says, then send the request again; it is safe to repeat.",
        "All workers are busy.",
    ),
    Kind(
        "time-limit",
        503,
        "Time limit reached",
        "The job was stopped because it ran longer than the service allows.",
        "Ask for less effort or fewer parts, or raise SCANTLING_TIME_LIMIT.",
        "The job was stopped after 20 seconds.",
    ),
    Kind(
        "not-ready",
        503,
        "Not ready",
        "The service is starting or stopping.",
        "Try again in a few seconds.",
        "Not ready: the workers are starting.",
    ),
)
KINDS: Mapping[str, Kind] = {kind.slug: kind for kind in _KINDS}
_BY_STATUS = {
    400: "bad-request",
    404: "not-found",
    405: "method-not-allowed",
    406: "not-acceptable",
    413: "too-large",
    415: "unsupported-media-type",
    422: "invalid-request",
    429: "too-many-requests",
    503: "busy",
}
RETRY_AFTER = 2  # seconds; one job of normal effort is worth about one


@dataclass(frozen=True, slots=True)
class Fault:
    """One entry of `errors`: a place in the body (`pointer`) or a named value of `where` (query, path, header)."""

    detail: str
    code: str
    pointer: str | None = None
    where: str | None = None
    name: str | None = None

    def to_plain(self) -> dict[str, str]:
        """Return the entry as JSON members; only those that apply."""
        entry: dict[str, str] = {}
        if self.where is not None and self.name is not None:
            entry["in"] = self.where
            entry["name"] = self.name
        else:
            entry["pointer"] = fragment(self.pointer or "")
        entry["detail"] = self.detail
        entry["code"] = self.code
        return entry


class Problem(Exception):
    """Raised anywhere in the door to answer with a problem document."""

    def __init__(
        self,
        slug: str,
        detail: str | None = None,
        *,
        errors: Sequence[Fault] = (),
        headers: Mapping[str, str] | None = None,
        **extra: object,
    ) -> None:
        self.kind = KINDS[slug]
        self.detail = detail or self.kind.example
        self.errors = tuple(errors)
        self.headers = dict(headers or {})
        self.extra = extra
        super().__init__(f"{slug}: {self.detail}")


def pointer(path: Sequence[str | int]) -> str:
    """Return the JSON Pointer (RFC 6901) for a path of member names and list places."""
    return "".join("/" + str(step).replace("~", "~0").replace("/", "~1") for step in path)


def fragment(plain: str) -> str:
    """Return a JSON Pointer as a URI fragment identifier (RFC 6901 section 6)."""
    return plain if plain.startswith("#") else "#" + quote(plain, safe="/~!$&'()*+,;=:@?-._")


def kind_for(status: int) -> Kind:
    """Return the kind that stands for a bare status."""
    return KINDS[_BY_STATUS.get(status, "internal" if status >= 500 else "bad-request")]


def document(problem: Problem, scope: Scope) -> dict[str, Any]:
    """Return the problem document; `instance` and `request_id` come from the request."""
    state = scope.get("state", {})
    request_id = str(state.get("request_id", ""))
    body: dict[str, Any] = {
        "type": f"{state.get('root_path', '')}/v1/problems/{problem.kind.slug}",
        "title": problem.kind.title,
        "status": problem.kind.status,
        "detail": problem.detail,
        "instance": uuid.uuid5(uuid.NAMESPACE_URL, f"request:{request_id}").urn,
        "request_id": request_id,
    }
    if problem.errors:
        body["errors"] = [fault.to_plain() for fault in problem.errors]
    return body | problem.extra


def answer(problem: Problem, scope: Scope) -> Response:
    """Return the response for a problem, with Retry-After where waiting helps."""
    headers = {"Cache-Control": "no-store", **problem.headers}
    body = document(problem, scope)
    if problem.kind.status in (429, 503):
        headers.setdefault("Retry-After", str(RETRY_AFTER))
        body["retry_after"] = int(headers["Retry-After"])
    content = json.dumps(body, ensure_ascii=False).encode("utf-8", "backslashreplace")
    return Response(content, problem.kind.status, headers, media_type=PROBLEM_TYPE)
