"""The client: one method an endpoint, plain data in and out."""

from collections.abc import Mapping
from types import TracebackType
from typing import Any, Self, cast
from urllib.parse import quote, urlsplit

import httpx2
import stamina

from . import models
from .errors import Problem, ServiceUnreachable
from .units import plain_quantities

RETRIED = frozenset({429, 502, 503, 504})
IN_VAIN = frozenset({"time-limit"})  # the same request would run into the same limit
TRIES = 4
LONGEST_WAIT = 60.0  # seconds; a service that asks for more is left alone
LOOPBACK = frozenset({"localhost", "127.0.0.1", "::1"})
Json = Mapping[str, Any]


class _Again(Exception):
    """A response that may be tried again."""

    def __init__(self, response: httpx2.Response) -> None:
        self.response = response
        super().__init__(response.status_code)


class Client:
    """Speaks with one scantling service. Use it as a context manager, or call `close`.

    `address` may carry a sub-path. `transport` takes any httpx2 transport, for example one that records in tests.
    Every method raises Problem for what the service refuses, BadQuantity for a quantity it has no use for, and
    ServiceUnreachable when there is no answer after four tries. Threads may share a client.
    """

    def __init__(
        self,
        address: str = "http://127.0.0.1:8000",
        *,
        timeout: float = 60.0,
        api_key: str | None = None,
        transport: httpx2.BaseTransport | None = None,
    ) -> None:
        self._given = (address, timeout, api_key)
        headers = {"X-API-Key": api_key} if api_key else {}
        self._http = httpx2.Client(
            base_url=address,
            timeout=timeout,
            headers=headers,
            transport=transport,
            trust_env=urlsplit(address).hostname not in LOOPBACK,  # no proxy stands between a machine and itself
        )

    def __enter__(self) -> Self:
        """Return the client itself."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the connections."""
        self.close()

    def __reduce__(self) -> tuple[Any, ...]:
        """Let a client travel to another process, where it opens connections of its own."""
        return _made_again, (type(self), *self._given)

    def close(self) -> None:
        """Close the connections."""
        self._http.close()

    # ------------------------------------------------------------------ computations

    def plan(self, project: models.ProjectRequest | Json) -> models.ProjectAnswer:
        """Return the whole plan of a project."""
        return cast(models.ProjectAnswer, self._post("/v1/projects", project))

    def plan_csv(self, project: models.ProjectRequest | Json, table: str | None = None) -> str:
        """Return a table of a project's plan as CSV: the cut list unless `table` names another."""
        return self._csv("/v1/projects", project, table)

    def plan_file(self, project: models.ProjectRequest | Json, form: str = "pdf", view: str | None = None) -> bytes:
        """Return a project's plan as a file: pdf (the packet for the shop), zip (everything), svg, dxf or xlsx.

        `view` picks a picture where the form has several.
        """
        return self._file("/v1/projects", project, form, view)

    def parts(self, module: str, request: models.PartsRequest | Json | None = None) -> models.PartsAnswer:
        """Return one piece worked out: cut list, joints, fasteners, findings, and the piece in space."""
        return cast(models.PartsAnswer, self._post(f"/v1/modules/{_step(module)}/parts", request or {}))

    def parts_csv(
        self, module: str, request: models.PartsRequest | Json | None = None, table: str | None = None
    ) -> str:
        """Return a table of one piece as CSV: the cut list unless `table` names another."""
        return self._csv(f"/v1/modules/{_step(module)}/parts", request or {}, table)

    def parts_file(
        self,
        module: str,
        request: models.PartsRequest | Json | None = None,
        form: str = "pdf",
        view: str | None = None,
    ) -> bytes:
        """Return one piece as a file: pdf, svg, dxf, xlsx, glb, step or zip; `view` picks a picture."""
        return self._file(f"/v1/modules/{_step(module)}/parts", request or {}, form, view)

    def prove(self, module: str, request: models.ProofsRequest | Json | None = None) -> models.ProofsAnswer:
        """Return what opens, closes or fails over the thicknesses on sale, a saw's errors and a year's moisture."""
        return cast(models.ProofsAnswer, self._post(f"/v1/modules/{_step(module)}/proofs", request or {}))

    def prove_csv(self, module: str, request: models.ProofsRequest | Json | None = None) -> str:
        """Return the same as CSV."""
        return self._csv(f"/v1/modules/{_step(module)}/proofs", request or {})

    def dry_fit(self, request: models.DryFitRequest | Json) -> models.DryFitAnswer:
        """Return what is found when an assembly is put together by computation; it takes what `parts` answers."""
        return cast(models.DryFitAnswer, self._post("/v1/dry-fits", request))

    def dry_fit_csv(self, request: models.DryFitRequest | Json) -> str:
        """Return the findings of a dry fit as CSV."""
        return self._csv("/v1/dry-fits", request)

    def nest(self, request: models.NestingRequest | Json) -> models.NestingAnswer:
        """Return layouts of parts on sheets and boards."""
        return cast(models.NestingAnswer, self._post("/v1/nestings", request))

    def nest_csv(self, request: models.NestingRequest | Json, table: str | None = None) -> str:
        """Return a table of a nesting as CSV: the placements unless `table` names another."""
        return self._csv("/v1/nestings", request, table)

    def nest_file(self, request: models.NestingRequest | Json, form: str = "pdf", view: str | None = None) -> bytes:
        """Return layouts as a file: pdf, svg, dxf or zip."""
        return self._file("/v1/nestings", request, form, view)

    def check_fasteners(self, request: models.FastenerRequest | Json) -> models.FastenerAnswer:
        """Return the check of every joint of a request."""
        return cast(models.FastenerAnswer, self._post("/v1/fastener-checks", request))

    def check_fasteners_csv(self, request: models.FastenerRequest | Json, table: str | None = None) -> str:
        """Return the check of every joint of a request as CSV."""
        return self._csv("/v1/fastener-checks", request, table)

    def cost(self, request: models.CostingRequest | Json) -> models.CostingAnswer:
        """Return what a take-off costs, as bought and as used."""
        return cast(models.CostingAnswer, self._post("/v1/costings", request))

    def cost_csv(self, request: models.CostingRequest | Json, table: str | None = None) -> str:
        """Return a table of a costing as CSV: the lines unless `table` names another."""
        return self._csv("/v1/costings", request, table)

    # ------------------------------------------------------------------ figures

    def figures(self) -> models.FigureList:
        """Return the figures on offer, with their inputs."""
        return cast(models.FigureList, self._get("/v1/figures"))

    def figure(self, name: str, **inputs: Any) -> models.FigureValue:  # noqa: ANN401 - lengths, counts and words alike
        """Return one figure and the short table behind it: `figure("board-feet", thickness="1 in", …)`."""
        return cast(models.FigureValue, self._get(f"/v1/figures/{_step(name)}", _query(inputs)))

    def figure_text(self, name: str, **inputs: Any) -> str:  # noqa: ANN401 - lengths, counts and words alike
        """Return one figure as a spreadsheet cell would get it."""
        query = _query(inputs) | {"format": "text"}
        return self._send("GET", f"/v1/figures/{_step(name)}", params=query).text.strip()

    # ------------------------------------------------------------------ catalogues

    def modules(self) -> list[models.ModuleEntry]:
        """Return the furniture on offer."""
        return cast(models.ModuleList, self._get("/v1/modules"))["modules"]

    def module(self, module: str) -> models.ModuleAnswer:
        """Return one kind of furniture with the schema of its parameters."""
        return cast(models.ModuleAnswer, self._get(f"/v1/modules/{_step(module)}"))

    def tables(self) -> models.Tables:
        """Return the published tables on offer."""
        return cast(models.Tables, self._get("/v1/tables"))

    def table(self, name: str) -> models.TableAnswer:
        """Return a table of published facts; each row carries its source."""
        return cast(models.TableAnswer, self._get(f"/v1/tables/{_step(name)}"))

    def findings(self) -> models.Codes:
        """Return the catalogue of finding codes."""
        return cast(models.Codes, self._get("/v1/findings"))

    def problems(self) -> models.ProblemKinds:
        """Return the catalogue of problems."""
        return cast(models.ProblemKinds, self._get("/v1/problems"))

    def problem(self, kind: str) -> models.ProblemKind:
        """Return what one kind of problem means and how to mend it."""
        return cast(models.ProblemKind, self._get(f"/v1/problems/{_step(kind)}"))

    def plugins(self) -> models.Plugins:
        """Return the plugins, loaded and failed."""
        return cast(models.Plugins, self._get("/v1/plugins"))

    def stock_lists(self) -> models.StockLists:
        """Return what shops sell: the lists that `stock` of a nesting or a project may name."""
        return cast(models.StockLists, self._get("/v1/stock-lists"))

    def price_lists(self) -> models.PriceLists:
        """Return what things cost: the lists that `prices` of a costing or a project may name."""
        return cast(models.PriceLists, self._get("/v1/price-lists"))

    def finish_systems(self) -> models.FinishSystems:
        """Return the finish systems that `finish` of a project may name."""
        return cast(models.FinishSystems, self._get("/v1/finish-systems"))

    def service(self) -> models.About:
        """Return what the service is: its version, that of its interface and of its tables."""
        return cast(models.About, self._get("/v1"))

    def ready(self) -> bool:
        """Tell at once whether the service takes work; a service that gives no answer does not."""
        try:
            return self._http.get("/readyz").status_code == httpx2.codes.OK
        except httpx2.TransportError:
            return False

    # ------------------------------------------------------------------ the wire

    def _get(self, path: str, query: dict[str, str] | None = None) -> Any:  # noqa: ANN401 - JSON
        return self._send("GET", path, params=query).json()

    def _post(self, path: str, body: Json) -> Any:  # noqa: ANN401 - JSON
        return self._send("POST", path, json=plain_quantities(body)).json()

    def _csv(self, path: str, body: Json, table: str | None = None) -> str:
        params = {"table": table} if table else None
        headers = {"Accept": "text/csv"}
        return self._send("POST", path, json=plain_quantities(body), params=params, headers=headers).text

    def _file(self, path: str, body: Json, form: str, view: str | None) -> bytes:
        params = {"format": form} | ({"view": view} if view else {})
        return self._send("POST", path, json=plain_quantities(body), params=params).content

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
            raise ServiceUnreachable(
                f"no answer from {self._http.base_url}: {error or type(error).__name__}"
            ) from error
        if response.is_error:
            raise _problem(response)
        return response


def _made_again(kind: type[Client], address: str, timeout: float, api_key: str | None) -> Client:
    return kind(address, timeout=timeout, api_key=api_key)


def _step(name: str) -> str:
    """Return one step of a path, whatever is in the name."""
    return quote(name, safe="")


def _query(inputs: Json) -> dict[str, str]:
    return {k: str(v) for k, v in plain_quantities(inputs).items() if v is not None}


def _wait(error: Exception) -> bool | float:
    """Tell whether to try again, and after how many seconds where the service said so."""
    if not isinstance(error, _Again):
        # The service is not up yet, or it dropped a connection that had been kept open. A read that takes too long
        # is not tried again: the next one would take as long.
        return isinstance(error, httpx2.NetworkError | httpx2.RemoteProtocolError | httpx2.ConnectTimeout)
    problem = _problem(error.response)
    if problem.kind in IN_VAIN:
        return False
    if problem.retry_after is None:
        return True
    return (problem.retry_after or True) if problem.retry_after <= LONGEST_WAIT else False


def _problem(response: httpx2.Response) -> Problem:
    after = response.headers.get("Retry-After", "")
    seconds = float(after) if after.isascii() and after.isdigit() else None
    return Problem(response.status_code, _body(response), response.headers.get("X-Request-ID"), seconds)


def _body(response: httpx2.Response) -> Json:
    try:
        body = response.json()
    except ValueError:
        return {"detail": response.text[:200]}
    return body if isinstance(body, Mapping) else {"detail": str(body)[:200]}
