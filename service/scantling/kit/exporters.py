"""An exporter of a plugin: a form in which a plan can be had besides those of the service."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

PlanKind = Literal["parts", "project"]


@dataclass(frozen=True, slots=True)
class Export:
    """What an exporter is handed: the answer as JSON gives it (a copy, lengths in mm), and the request that led to it.

    `kind` is parts (one piece, POST /v1/modules/{module}/parts) or project (POST /v1/projects).
    """

    kind: PlanKind
    name: str
    plan: Mapping[str, Any]
    request: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Exporter:
    """One form: `format` is the word for `?format=` and the file's ending, `media_type` what Accept asks for."""

    format: str
    media_type: str
    title: str
    write: Callable[[Export], bytes]
    kinds: Sequence[PlanKind] = ("parts", "project")
