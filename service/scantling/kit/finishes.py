"""A finish system of a plugin: what is put on a surface, in how many coats, how far it goes, when to renew it."""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FinishSystem:
    """One system, by the label of the can. A request names it by its id.

    `kind` is one of the kinds of finish that the service knows (its cautions go by it). `least` and `most` are the
    area that one litre covers in one coat, m²/L; `recoat_hours` is from one coat to the next, `ready_hours` from the
    last to use; `care_months` how often to look after it. `exposures` say where it may stand: indoors, damp, covered
    outdoors, outdoors. `source` says where the figures are from.
    """

    id: str
    title: str
    says: str
    kind: str
    coats: int
    least: float
    most: float
    recoat_hours: float
    ready_hours: float
    care_months: int
    exposures: Sequence[str]
    source: str
