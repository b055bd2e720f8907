"""An exporter: what is to be cut, and what it is for, as Markdown (RFC 7763) to send to a friend."""

from collections.abc import Sequence

from scantling.kit import INTERFACE, Export, Exporter, ExportersContext, hook


def card(export: Export) -> bytes:
    """Return the cut list of a piece or of a plan as a table."""
    rows = export.plan["cut_list" if export.kind == "project" else "parts"]
    lines = [f"# {export.name}", "", "| part | pieces | length | width | of |", "|---|---|---|---|---|"]
    for row in rows:
        of = f"{row['material']}, {row['thickness_mm']:g} mm"
        lines.append(f"| {row['name']} | {row['quantity']} | {row['length_text']} | {row['width_text']} | {of} |")
    lines += ["", *(f"- {caution}" for caution in export.plan["cautions"]), ""]
    return "\n".join(lines).encode("utf-8")


class CutCard:
    """The plugin."""

    interface = INTERFACE

    @hook
    def exporters(self, context: ExportersContext) -> Sequence[Exporter]:
        """Return the one form there is."""
        return [Exporter("md", "text/markdown", "The cut list as a card in Markdown", card)]


plugin = CutCard()
