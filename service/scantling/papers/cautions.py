"""The cautions of a plan, and what the computation noticed."""

from .dossier import Dossier
from .page import Flow


def cautions(flow: Flow, dossier: Dossier) -> None:
    """Write cautions and the findings that remain."""
    flow.section("Cautions", room=30)
    for caution in dossier.plan["cautions"]:
        flow.bullet(caution)
    flow.section("What the computation noticed", room=30)
    findings = dossier.plan["findings"]
    if not findings:
        flow.text("Nothing that stands against building it.")
    for f in findings:
        remedy = f" {f['remedy']}" if f["remedy"] else ""
        flow.bullet(f"{f['severity'].upper()}: {f['message']}{remedy}", size=3.0)
