"""Looks over a drawing as a reader would: text off the page, text on text. Used by tests and while drawing."""

from collections.abc import Iterator

from .shapes import Drawing, Text

TOLERANCE = 0.05  # mm on paper


def off_page(drawing: Drawing) -> Iterator[Text]:
    """Yield the texts whose box does not lie on the page."""
    for text in drawing.texts():
        x0, y0, x1, y1 = text.box()
        if x0 < -TOLERANCE or y0 < -TOLERANCE or x1 > drawing.width + TOLERANCE or y1 > drawing.height + TOLERANCE:
            yield text


def overlapping(drawing: Drawing) -> Iterator[tuple[Text, Text]]:
    """Yield the pairs of texts whose boxes overlap."""
    boxes = sorted(((t.box(), t) for t in drawing.texts() if t.text.strip()), key=lambda pair: pair[0])
    for i, (a, text) in enumerate(boxes):
        for b, other in boxes[i + 1 :]:
            if b[0] >= a[2] - TOLERANCE:
                break
            if b[1] < a[3] - TOLERANCE and a[1] < b[3] - TOLERANCE:
                yield text, other
