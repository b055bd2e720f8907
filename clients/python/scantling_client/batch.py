"""Many requests at once, on any `concurrent.futures.Executor`; one that fails does not stop the others."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from concurrent.futures import Executor
from dataclasses import dataclass
from typing import Any, TypeVar

from .errors import ScantlingError

Json = Mapping[str, Any]
Answer = TypeVar("Answer")


@dataclass(frozen=True, slots=True)
class Failed:
    """A request that was refused or got no answer, and why."""

    request: Json
    error: ScantlingError


def run_batch(
    call: Callable[[Json], Answer], requests: Iterable[Json], executor: Executor
) -> Iterator[Answer | Failed]:
    """Yield the answer of `call` to each request, in their order; a failure is yielded as `Failed`, never raised.

    All requests are handed to the executor when the first answer is asked for. A method of `Client` is a `call` for
    threads, for processes and for machines: a client that is sent elsewhere opens connections of its own there.
    """
    asked = [(request, executor.submit(call, request)) for request in requests]
    for request, future in asked:
        try:
            yield future.result()
        except ScantlingError as error:
            yield Failed(request, error)
