"""How long a screw may be: the shortest that bites, the longest that stays inside, and the stocked one between.

Lengths run from the top of the head along the axis. With the head `head_depth_mm` below the surface, a screw of
length L has its point at depth head_depth + L, so it bites head_depth + L - head_layers into the receiver.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from types import MappingProxyType

from .errors import UnknownRowError
from .people import look_up
from .screws import StockScrew, screw_gauge, screw_stock

ROLES = ("holds", "clamps", "locates")
GUARD_MM = 0.01


@dataclass(frozen=True, slots=True)
class LengthWindow:
    """The lengths that do: shortest that bites and longest that stays inside, mm; `aim_mm` is the one to look for."""

    shortest_mm: float
    longest_mm: float
    role: str = "holds"
    aim_mm: float = 0.0

    @property
    def empty(self) -> bool:
        """Return True when no length both bites and stays inside."""
        return self.shortest_mm > self.longest_mm + GUARD_MM

    def admits(self, length_mm: float) -> bool:
        """Return True when a length (mm) lies in the window, with 0.01 mm for rounding."""
        return self.shortest_mm - GUARD_MM <= length_mm <= self.longest_mm + GUARD_MM


def bite_diameters(fastener: str, role: str) -> tuple[float, float]:
    """Return the least and the full penetration into the receiver, in diameters, by fastener and role.

    Source: NDS 2018 12.1.4 to 12.1.6 for `holds`; practice for `clamps` and `locates`. Raises UnknownRowError.
    """
    if role not in ROLES:
        raise UnknownRowError("screw role", role, ROLES)
    least = look_up("fastener_bite", "least", fastener=fastener, role=role)
    return least.value, look_up("fastener_bite", "full", fastener=fastener, role=role).value


# Least bite of a wood screw in shank diameters by role, for those who lay screws out.
BITE_DIAMETERS = MappingProxyType({role: bite_diameters("wood screw", role)[0] for role in ROLES})


def screw_window(
    head_layers_mm: float,
    receiver_mm: float,
    gauge: int,
    role: str,
    head_depth_mm: float,
    clear_mm: float = 2.0,
) -> LengthWindow:
    """Return the window of lengths for a screw through `head_layers_mm` into a receiver `receiver_mm` deep, all mm.

    `clear_mm` is left between the point and the far side. The window may be empty (`.empty`). Raises UnknownGauge,
    UnknownRowError for a role other than holds, clamps, locates, ValueError for a negative length.
    Bite: NDS 2018 12.1.5 for `holds` (6 diameters, point included); practice for `clamps` and `locates`.
    """
    return window_for_diameter(
        head_layers_mm, receiver_mm, screw_gauge(gauge).diameter_mm, role, head_depth_mm, clear_mm
    )


def window_for_diameter(
    head_layers_mm: float,
    receiver_mm: float,
    diameter_mm: float,
    role: str,
    head_depth_mm: float,
    clear_mm: float = 2.0,
) -> LengthWindow:
    """Return the window for a screw given by its outside diameter (mm) instead of a gauge; else as screw_window."""
    if not diameter_mm > 0:
        raise ValueError(f"screw diameter must be above 0 mm, not {diameter_mm}")
    least, full = bite_diameters("wood screw", role)
    bite, enough = least * diameter_mm, full * diameter_mm
    return window_for_bite(head_layers_mm, receiver_mm, bite, enough, role, head_depth_mm, clear_mm)


def window_for_bite(
    head_layers_mm: float,
    receiver_mm: float,
    bite_mm: float,
    enough_mm: float,
    role: str,
    head_depth_mm: float,
    clear_mm: float = 2.0,
) -> LengthWindow:
    """Return the window for any fastener that needs `bite_mm` in the receiver and gains little past `enough_mm`, mm.

    Raises UnknownRowError for a role other than holds, clamps, locates, ValueError for a negative length.
    """
    if role not in ROLES:
        raise UnknownRowError("screw role", role, ROLES)
    for name, value in (
        ("head layers", head_layers_mm),
        ("receiver", receiver_mm),
        ("bite", bite_mm),
        ("head depth", head_depth_mm),
        ("clear", clear_mm),
    ):
        if not value >= 0:
            raise ValueError(f"{name} must be 0 mm or more, not {value}")
    to_receiver = head_layers_mm - head_depth_mm
    shortest = to_receiver + bite_mm
    longest = to_receiver + receiver_mm - clear_mm
    enough = min(longest, max(shortest, to_receiver + enough_mm))
    aim = {"holds": enough, "clamps": (shortest + enough) / 2, "locates": shortest}[role]
    return LengthWindow(shortest, longest, role, aim)


def stocked_lengths(window: LengthWindow, gauge: int) -> tuple[StockScrew, ...]:
    """Return every stocked screw of a gauge whose length lies in the window, shortest first. Raises UnknownGauge."""
    screw_gauge(gauge)
    return tuple(s for s in screw_stock() if s.gauge == gauge and window.admits(s.length_mm))


def stocked_length(window: LengthWindow, gauge: int) -> StockScrew | None:
    """Return the stocked screw to take, or None when none lies in the window. Raises UnknownGauge.

    Holding screws: the shortest that reaches the full 10 diameters of bite, else the longest there is, because
    bite is what they are for. Clamping screws: nearest the middle of the useful window, so that a thin sheet or a
    deep countersink leaves both the bite and the far face safe. Locating screws: the shortest.
    """
    fitting = {screw.length_mm: screw for screw in stocked_lengths(window, gauge)}
    length_mm = chosen_length(window, fitting)
    return None if length_mm is None else fitting[length_mm]


def chosen_length(window: LengthWindow, lengths_mm: Iterable[float]) -> float | None:
    """Return the length (mm) to take of those on offer by the rule of `stocked_length`; None when none is admitted."""
    fitting = sorted(length for length in lengths_mm if window.admits(length))
    if not fitting:
        return None
    if window.role == "clamps":
        return min(fitting, key=lambda length: (abs(length - window.aim_mm), length))
    long_enough = [length for length in fitting if length >= window.aim_mm - GUARD_MM]
    return long_enough[0] if long_enough else fitting[-1]
