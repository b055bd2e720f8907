"""What plugins add that the door must know: forms of an answer, and finding codes. Asked of a worker once, and kept.

The door never imports a plugin, nor the host of plugins: it is told of them in plain rows.
"""

import json
from base64 import b64decode
from collections.abc import Mapping, Sequence
from typing import Any

from starlette.responses import Response

from scantling.work import Seam, SeamError

from .negotiate import OTHER_NAMES, TYPES

Row = Mapping[str, Any]
OPERATION = "exports"
KINDS = ("parts", "project")  # the answers that plugins write
_SAFE = "default-src 'none'; sandbox"  # whatever a plugin writes, a browser that shows it runs nothing


class Plugged:
    """The rows about plugins, asked for when they are first needed."""

    def __init__(self, seam: Seam) -> None:
        self._seam = seam
        self._rows: Row | None = None

    async def exporters(self, kind: str | None) -> Sequence[Row]:
        """Return the exporters that write this kind of answer; none while the workers cannot be asked."""
        rows = await self._asked()
        return [row for row in rows.get("exporters", ()) if kind in row["kinds"]]

    async def codes(self) -> Sequence[Row]:
        """Return the finding codes of plugins' checks; none while the workers cannot be asked."""
        return list((await self._asked()).get("codes", ()))

    async def _asked(self) -> Row:
        if self._rows is None:
            try:
                self._rows = await self._seam.run("plugins", {})
            except (SeamError, LookupError):
                return {}
        return self._rows


def may_be_plugged(accept: str | None, form: str | None) -> bool:
    """Whether a client asks for something that is no form of the service's own, so that plugins must be asked."""
    if form is not None:
        return form not in TYPES
    own = {*TYPES.values(), *OTHER_NAMES}
    asked = [item.partition(";")[0].strip().lower() for item in (accept or "").split(",")]
    return any(media and not media.endswith("/*") and media not in own for media in asked)


def job(kind: str, form: str, body: Mapping[str, Any]) -> dict[str, Any]:
    """Return the job for a worker: the body of the operation, and the form that a plugin writes it in."""
    return {"kind": kind, "format": form, "request": {name: v for name, v in body.items() if name != "papers"}}


def sent(answer: bytes) -> Response:
    """Return the response with the file that a plugin wrote."""
    found = json.loads(answer)
    headers = {
        "Content-Disposition": f'attachment; filename="{found["filename"]}"',
        "Content-Security-Policy": _SAFE,
        "Vary": "Accept",
    }
    return Response(b64decode(found["base64"]), headers=headers, media_type=found["media_type"])
