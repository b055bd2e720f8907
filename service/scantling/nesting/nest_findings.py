"""What a nesting should tell its reader: what is missing, what the numbers rest on."""

from scantling.findings import Finding, Severity

from .nouns import Job, Nesting


def find_all(job: Job, nesting: Nesting) -> list[Finding]:
    """Return the findings of a finished nesting."""
    findings = []
    for left_out in nesting.unplaced:
        code = "part-does-not-fit" if left_out.excess is not None else "part-not-placed"
        message = f"{left_out.quantity} × {left_out.part} not placed: {left_out.reason}."
        if left_out.excess is not None and any(left_out.excess) and left_out.nearest_stock is not None:
            over = " and ".join(
                f"{excess / 100:g} mm too {word}"
                for excess, word in zip(left_out.excess, ("long", "wide"), strict=True)
                if excess
            )
            message = f"{message[:-1]}; for “{left_out.nearest_stock}” it is {over}."
        findings.append(Finding(code, Severity.ERROR, message, parts=(left_out.part,)))
    if nesting.cost is None and nesting.layouts:
        unpriced = sorted(s.id for s in job.stock if s.price is None)
        shown = ", ".join(unpriced[:3]) + (" …" if len(unpriced) > 3 else "")
        message = f"No price for {shown}: the area bought was kept small instead of the cost."
        findings.append(Finding("stock-without-price", Severity.NOTE, message))
    return findings
