"""Answers of the catalogues and of the service about itself."""

from typing import Literal

from pydantic import Field

from .marks import unit
from .scalars import Open


class FaultEntry(Open):
    """One fault of a request."""

    pointer: str | None = Field(None, description="JSON Pointer (RFC 6901, as a URI fragment) into the body.")
    where: Literal["query", "path", "header"] | None = Field(
        None, alias="in", description="Where the value stands, when it is not in the body."
    )
    name: str | None = Field(None, description="Name of the query, path or header value.")
    detail: str = Field(description="What was found and what would be accepted.")
    code: str = Field(description="Kebab-case code; GET /v1/problems/invalid-request lists them.")


class ProblemDocument(Open):
    """A problem document (RFC 9457)."""

    type: str = Field(description="Address of the kind of problem, relative to the service.")
    title: str = Field(description="What the kind of problem is called.")
    status: int = Field(description="The HTTP status code.")
    detail: str = Field(description="What happened this time, for people.")
    instance: str = Field(description="Names this occurrence.")
    request_id: str = Field(description="Id of the request, as in the X-Request-ID header and in the log.")
    errors: list[FaultEntry] | None = Field(None, description="One entry for each fault, where there are any.")
    available: list[str] | None = Field(None, description="Media types the answer comes in (406).")
    retry_after: int | None = Field(
        None, description="Seconds to wait before asking again (429, 503).", json_schema_extra=unit("s")
    )


class Link(Open):
    """Where something is."""

    href: str = Field(description="Address, relative to the service.")
    title: str = Field(description="What is there.")


class About(Open):
    """The service about itself."""

    name: str = Field(description="Name of the service.")
    version: str = Field(description="Version of the service; figures may change with it.")
    interface_version: str = Field(description="Version of the interface, the one in the paths.")
    tables_version: str = Field(description="Fingerprint of the published tables it computes with.")
    links: dict[str, Link] = Field(description="The addresses of the service by name.")


class Code(Open):
    """One finding code."""

    code: str = Field(description="The code, kebab-case, the same in every answer.")
    subject: str = Field(description="What it is about.")
    severity: Literal["error", "warning", "note"] = Field(description="Its usual severity.")
    title: str = Field(description="What it is called.")
    meaning: str = Field(description="What it means.")
    remedy: str = Field(description="What usually mends it.")
    origin: str | None = Field(description="The plugin whose check finds it; null for the service's own.")


class Codes(Open):
    """Every code that a finding may carry."""

    findings: list[Code] = Field(description="The codes, sorted.")


class ErrorCode(Open):
    """One code of an entry of `errors`."""

    code: str = Field(description="The code.")
    meaning: str = Field(description="What it means.")
    cross_field: bool = Field(description="True when a body that fits its schema can still be refused with this code.")


class ProblemKind(Open):
    """One kind of problem."""

    slug: str = Field(description="Its name in the address.")
    type: str = Field(description="The `type` of its documents.")
    status: int = Field(description="The HTTP status code.")
    title: str = Field(description="What it is called.")
    meaning: str = Field(description="What it means.")
    remedy: str = Field(description="What mends it.")
    example: str = Field(description="An example of `detail`.")
    codes: list[ErrorCode] = Field(description="The codes that its `errors` may carry.")


class ProblemKinds(Open):
    """Every kind of problem the service answers with."""

    problems: list[ProblemKind] = Field(description="The kinds, by status.")


class TableEntry(Open):
    """One published table."""

    id: str = Field(description="Its name in the address.")
    title: str = Field(description="What it holds.")
    about: str = Field(description="How to read it; may be empty.")
    rows: int = Field(description="How many rows it has.")


class Tables(Open):
    """The published tables."""

    tables: list[TableEntry] = Field(description="The tables, sorted by name.")


class TableRow(Open):
    """One row: the table's own columns, and where the figures are from."""

    unit: str = Field(description="Unit of the row's numbers, or of each column that holds numbers.")
    source: str = Field(description="Title, edition and place the figures are from.")
    status: Literal["read", "derived", "memory"] = Field(
        description="`read` in the source, `derived` from rows that were, or from `memory`: such a row only informs."
    )


class TableAnswer(Open):
    """A published table."""

    id: str = Field(description="Its name in the address.")
    title: str = Field(description="What it holds.")
    about: str = Field(description="How to read it; may be empty.")
    units: dict[str, str] = Field(description="Unit by column.")
    rows: list[TableRow] = Field(description="The rows, in the table's own order.")


class Check(Open):
    """One condition of being ready."""

    name: str = Field(description="What is checked.")
    ok: bool = Field(description="Whether it holds.")
    detail: str = Field(description="In words.")


class Readiness(Open):
    """Whether the service can take work."""

    ready: bool = Field(description="Whether every check holds.")
    checks: list[Check] = Field(description="The checks.")


class Liveness(Open):
    """The service runs."""

    live: Literal[True] = Field(description="Always true.")
