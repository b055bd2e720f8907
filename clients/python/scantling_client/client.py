"""The client: one method an endpoint, plain data in and out."""

from collections.abc import Mapping
from types import TracebackType
from typing import Any, Self, cast

import httpx2
import stamina

from .errors import Problem, ServiceUnreachable
from .units import plain_lengths

RETRIED = frozenset({429, 502, 503, 504})
TRIES = 4
Json = Mapping[str, Any]


class _Again(Exception):  # noqa: N818 - not an error but a wish to be tried again
    """A response that may be tried again."""

    def __init__(self, response: httpx2.Response) -> None:
        self.response = response
        super().__init__(response.status_code)


class Client:
    """Speaks with one scantling service. Use it as a context manager, or call `close`.

    `transport` takes any httpx2 transport, for example an ASGI one in tests. Raises Problem for what the service
    refuses and ServiceUnreachable when there is no answer after four tries.
    """

    def __init__(
        self,
        address: str = "http://127.0.0.1:8000",
        *,
        timeout: float = 60.0,
        api_key: str | None = None,
        transport: httpx2.BaseTransport | None = None,
    ) -> None:
        headers = {"X-API-Key": api_key} if api_key else {}
        self._http = httpx2.Client(base_url=address, timeout=timeout, headers=headers, transport=transport)

    def __enter__(self) -> Self:
        """Return the client itself."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the connections."""
        self.close()

    def close(self) -> None:
        """Close the connections."""
        self._http.close()

    # ------------------------------------------------------------------ computations

    def plan(self, project: Json) -> dict[str, Any]:
        """Return the whole plan of a project."""
        return self._post("/v1/projects", project)

    def plan_csv(self, project: Json, table: str | None = None) -> str:
        """Return a table of a project's plan as CSV: the cut list unless `table` names another."""
        return self._csv("/v1/projects", project, table)

    def parts(self, module: str, request: Json | None = None) -> dict[str, Any]:
        """Return one piece worked out: cut list, joints, fasteners, findings, and the piece in space."""
        return self._post(f"/v1/modules/{module}/parts", request or {})

    def parts_csv(self, module: str, request: Json | None = None, table: str | None = None) -> str:
        """Return the cut list of one piece as CSV."""
        return self._csv(f"/v1/modules/{module}/parts", request or {}, table)

    def nest(self, request: Json) -> dict[str, Any]:
        """Return layouts of parts on sheets and boards."""
        return self._post("/v1/nestings", request)

    def nest_csv(self, request: Json, table: str | None = None) -> str:
        """Return the placements of a nesting as CSV."""
        return self._csv("/v1/nestings", request, table)

    def check_fasteners(self, request: Json) -> dict[str, Any]:
        """Return the check of every joint of a request."""
        return self._post("/v1/fastener-checks", request)

    def cost(self, request: Json) -> dict[str, Any]:
        """Return what a take-off costs, as bought and as used."""
        return self._post("/v1/costings", request)

    # ------------------------------------------------------------------ catalogues

    def modules(self) -> list[dict[str, Any]]:
        """Return the furniture on offer."""
        return cast(list[dict[str, Any]], self._get("/v1/modules")["modules"])

    def module(self, module: str) -> dict[str, Any]:
        """Return one kind of furniture with the schema of its parameters."""
        return self._get(f"/v1/modules/{module}")

    def table(self, name: str) -> dict[str, Any]:
        """Return a table of published facts."""
        return self._get(f"/v1/tables/{name}")

    def findings(self) -> dict[str, Any]:
        """Return the catalogue of finding codes."""
        return self._get("/v1/findings")

    def plugins(self) -> dict[str, Any]:
        """Return the plugins, loaded and failed."""
        return self._get("/v1/plugins")

    def figure(self, name: str, **inputs: Any) -> str:  # noqa: ANN401 - lengths, counts and words alike
        """Return one figure for a cell as text, for example `figure("board-feet", thickness="1 in", …)`."""
        query = {k: str(v) for k, v in plain_lengths(inputs).items()} | {"format": "text"}
        return self._send("GET", f"/v1/figures/{name}", params=query).text.strip()

    # ------------------------------------------------------------------ the wire

    def _get(self, path: str) -> dict[str, Any]:
        return cast(dict[str, Any], self._send("GET", path).json())

    def _post(self, path: str, body: Json) -> dict[str, Any]:
        return cast(dict[str, Any], self._send("POST", path, json=plain_lengths(body)).json())

    def _csv(self, path: str, body: Json, table: str | None) -> str:
        params = {"table": table} if table else None
        return self._send("POST", path, json=plain_lengths(body), params=params, headers={"Accept": "text/csv"}).text

    def _send(self, method: str, path: str, **more: Any) -> httpx2.Response:  # noqa: ANN401 - handed on to httpx2
        """Send one request, trying again where that may help. Every computation is safe to repeat."""
        try:
            for attempt in stamina.retry_context(on=_wait, attempts=TRIES, timeout=120.0):
                with attempt:
                    response = self._http.request(method, path, **more)
                    if response.status_code in RETRIED:
                        raise _Again(response)
        except _Again as again:
            response = again.response
        except httpx2.TransportError as error:
            raise ServiceUnreachable(f"no answer from {self._http.base_url}: {error}") from error
        if response.is_error:
            raise Problem(response.status_code, _body(response), response.headers.get("X-Request-ID"))
        return response


def _wait(error: Exception) -> bool | float:
    """Tell whether to try again, and after how many seconds where the service said so."""
    if isinstance(error, _Again):
        after = error.response.headers.get("Retry-After", "")
        return float(after) if after.isdigit() else True
    return isinstance(error, httpx2.ConnectError | httpx2.ConnectTimeout)


def _body(response: httpx2.Response) -> Mapping[str, Any]:
    try:
        body = response.json()
    except ValueError:
        return {"detail": response.text[:200]}
    return body if isinstance(body, Mapping) else {"detail": str(body)[:200]}
