"""Many requests at once, on any `concurrent.futures.Executor`; one that fails does not stop the others."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from concurrent.futures import Executor
from dataclasses import dataclass
from typing import Any

from .errors import ScantlingError

Json = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Failed:
    """A request that was refused or got no answer, and why."""

    request: Json
    error: ScantlingError


def run_batch(
    call: Callable[[Json], dict[str, Any]], requests: Iterable[Json], executor: Executor
) -> Iterator[dict[str, Any] | Failed]:
    """Yield the answer of `call` to each request, in their order; a failure is yielded as `Failed`, never raised."""
    asked = [(request, executor.submit(call, request)) for request in requests]
    for request, future in asked:
        try:
            yield future.result()
        except ScantlingError as error:
            yield Failed(request, error)
