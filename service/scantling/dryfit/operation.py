"""The operation behind `POST /v1/dry-fits`: a plain assembly in, whether it goes together out."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from math import sqrt
from typing import Any

from scantling.board import Assembly, Hole, Motion, MotionError, Promise, assembly_from_plain
from scantling.board.motion import motion_from_plain
from scantling.findings import Finding, ranked
from scantling.measure import MeasureError, RequestError, RequestProblem, Tape, pointer
from scantling.tables import materials

from .assembly_shape import DRY_FIT
from .glueing import Clamp, Glue, glue_ups
from .motion import Wall
from .moving import motion_findings, moved
from .result import DryFit
from .settings import Barrel, DryfitSettings, Load, Tool
from .shape import first_of, problem
from .verify import verify
from .work_order import plan_work

MOST_PROBLEMS = 50
MOST_CELLS = 2000
EXACT = 1e-9


def dry_fits(plain: dict[str, Any]) -> dict[str, Any]:
    """Verify an assembly somebody described, with optional settings; lengths in mm, closed objects.

    Answers `summary`, `findings`, `order`, `balance`, `alike`, how joints meet and screws pass, and `work`, the order
    of work. With `glue` (and `clamps`) it answers `glue_ups`, with `motions` what each of them meets; their findings
    stand among the others. Raises RequestError that points at every member at fault.
    """
    assembly, settings = read(plain)
    extra, more = _asked(plain, assembly, settings, answer := verify(assembly, settings))
    answer = replace(answer, findings=tuple(ranked([*answer.findings, *more])))
    return {**_pointed(answer).to_plain(), **extra}


def _asked(
    plain: Mapping[str, Any], assembly: Assembly, settings: DryfitSettings, answer: DryFit
) -> tuple[dict[str, Any], list[Finding]]:
    """Return what else was asked for, and its findings."""
    found: list[Finding] = []
    extra: dict[str, Any] = {"work": [], "glue_ups": None, "motions": [m.to_plain() for m in answer.motions]}
    if answer.order is not None:
        extra["work"] = [s.to_plain() for s in plan_work(assembly, answer.order, settings)]
    glue = plain.get("glue")
    if glue is not None and answer.order is not None:
        clamps = [Clamp(c["id"], c["reach_mm"], c["throat_mm"], c["count"]) for c in plain.get("clamps") or ()]
        label = Glue(glue["id"], glue["open_minutes"], glue["clamp_minutes"])
        ups = glue_ups(assembly, answer.order, clamps, label, settings)
        extra["glue_ups"] = [s.to_plain() for s in ups.stages]
        found += ups.findings
    for i, row in enumerate(plain.get("motions") or ()):
        motion, walls = _motion(row, assembly, "/motions" + pointer(i))
        swept = moved(assembly, motion, settings, walls)
        extra["motions"].append(swept.to_plain())
        found += motion_findings(assembly, swept)
    return extra, found


def _motion(row: Mapping[str, Any], assembly: Assembly, at: str) -> tuple[Motion, tuple[Wall, ...]]:
    for name in row["parts"]:
        if name not in assembly.parts:
            raise RequestError([problem(at + "/parts", f"no part has the id {name!r}", "unknown-part")])
    try:
        motion = motion_from_plain(row)
    except MotionError as error:
        raise RequestError([problem(at + "/travel", str(error), "out-of-range")]) from None
    return motion, tuple((_point(_unit(w["normal"])), w["offset_mm"]) for w in row.get("walls") or ())


def read(plain: Mapping[str, Any]) -> tuple[Assembly, DryfitSettings]:
    """Read the request of a dry fit. Raises RequestError that points at every member at fault."""
    problems = first_of(DRY_FIT(plain, ""), MOST_PROBLEMS)
    if problems:
        raise RequestError(problems)
    assembly = _assembly(plain["assembly"])
    problems = first_of(_semantic(assembly), MOST_PROBLEMS)
    if problems:
        raise RequestError(problems)
    return assembly, settings_from_plain(plain.get("settings") or {})


def _assembly(plain: Mapping[str, Any]) -> Assembly:
    """Read the assembly; a part that cannot be read is not reported again by all that name it."""
    try:
        return assembly_from_plain(_tidied(plain))
    except RequestError as error:
        ids = {p["id"] for p in plain["parts"]}
        echoes = [e for e in error.errors if e.code == "unknown-part" and any(f"{i!r}" in e.detail for i in ids)]
        raise RequestError([e for e in error.errors if e not in echoes] or error.errors) from None


def _tidied(plain: Mapping[str, Any]) -> dict[str, Any]:
    """Square up directions that lost their last digits on the way, and look up densities that were left out."""
    known = materials()
    tidy = dict(plain)
    tidy["materials"] = {
        role: m if "density_kg_m3" in m or m["material"] not in known
        else {**m, "density_kg_m3": known[m["material"]].density_kg_m3}
        for role, m in plain["materials"].items()
    }  # fmt: skip
    tidy["parts"] = [{**p, "frame": _squared(p["frame"])} for p in plain["parts"]]
    tidy["fasteners"] = [{**f, "direction": _unit(f["direction"])} for f in plain.get("fasteners", ())]
    return tidy


def _unit(v: list[float]) -> list[float]:
    size = sqrt(sum(c * c for c in v))
    return v if abs(size - 1) < EXACT else [c / size for c in v]


def _squared(frame: Mapping[str, Any]) -> dict[str, Any]:
    along, across = frame["length"], frame["width"]
    skew = sum(a * b for a, b in zip(along, across, strict=True))
    if EXACT < abs(skew) < 2e-3:
        along = _unit(along)
        skew = sum(a * b for a, b in zip(along, across, strict=True))
        across = _unit([b - skew * a for a, b in zip(along, across, strict=True)])
    return {**frame, "length": along, "width": across}


def settings_from_plain(plain: Mapping[str, Any], at: str = "/settings") -> DryfitSettings:
    """Return the settings of a dry fit from their JSON members; absent ones keep their defaults.

    Raises RequestError, its pointer beginning with `at`, for a tape that there is none of.
    """
    given = {name.removesuffix("_mm"): value for name, value in plain.items() if name not in ("tools", "loads", "tape")}
    settings = DryfitSettings(**given)
    if "tape" in plain:
        settings = replace(settings, tape=_tape(plain["tape"], at))
    if "tools" in plain:
        settings = replace(settings, tools=tuple(_tool(t) for t in plain["tools"]))
    if plain.get("loads") is not None:
        loads = tuple(Load(p["id"], p["mass_kg"], _point(p["at_mm"])) for p in plain["loads"])
        settings = replace(settings, loads=loads)
    return settings


def _tape(text: str, at: str) -> Tape:
    try:
        return Tape.parse(text)
    except MeasureError as error:
        raise RequestError([problem(at + "/tape", str(error), error.code)]) from None


def _tool(plain: Mapping[str, Any]) -> Tool:
    barrels = tuple(Barrel(b["start_mm"], b["end_mm"], b["radius_mm"]) for b in plain["barrels"])
    return Tool(plain["id"], plain["title"], barrels, assumed=False)


def _point(v: list[float]) -> tuple[float, float, float]:
    return (float(v[0]), float(v[1]), float(v[2]))


def _semantic(assembly: Assembly) -> Iterator[RequestProblem]:
    """Yield what no shape can tell: promises about the wrong number of sides, screws and joints at odds."""
    cells = sum(len(p.cells()) for p in assembly.parts.values())
    if cells > MOST_CELLS:
        yield problem(
            "/assembly/parts", f"the cuts leave {cells} convex pieces; at most {MOST_CELLS} are taken", "too-many"
        )
    for i, part in enumerate(assembly.parts.values()):
        for k, cut in enumerate(part.cuts):
            if isinstance(cut, Hole) and not (0 <= cut.x <= part.length and 0 <= cut.y <= part.width):
                yield problem(
                    "/assembly" + pointer("parts", i, "cuts", k),
                    f"{part.id}: a hole at {cut.x:g}, {cut.y:g} mm lies beside the blank of {part.length:g} by"
                    f" {part.width:g} mm",
                    "bad-cut",
                )
    for i, promise in enumerate(assembly.promises):
        yield from _promise_shape(promise, "/assembly" + pointer("promises", i))
    for i, joint in enumerate(assembly.joints.values()):
        if len(set(joint.parts)) < 2:
            yield problem("/assembly" + pointer("joints", i, "parts"), "a joint needs two different parts", "bad-joint")
    for i, f in enumerate(assembly.fasteners.values()):
        strangers = [p for p in f.parts if p not in assembly.joints[f.joint].parts]
        if strangers:
            yield problem(
                "/assembly" + pointer("fasteners", i, "parts"),
                f"{strangers[0]!r} is no part of the joint {f.joint!r}; a fastener passes parts of its own joint",
                "bad-fastener",
            )


def _promise_shape(promise: Promise, at: str) -> Iterator[RequestProblem]:
    wanted = {"touches": (2, 2), "gap": (2, 2), "flush": (2, 2), "size": (0, 1), "clear": (2, 0)}
    if promise.kind == "floor":
        if not promise.parts:
            yield problem(at + "/parts", "a floor promise names the parts that stand on it", "bad-promise")
        return
    parts, sides = wanted[promise.kind]
    axes = {"x", "y", "z"}
    if len(promise.parts) != parts or len(promise.sides) < sides:
        yield problem(at, f"a {promise.kind} promise takes {parts} parts and {sides} sides", "bad-promise")
    elif sides and (set(promise.sides) <= axes) is not (promise.kind == "size"):
        what = "the axis x, y or z" if promise.kind == "size" else "sides of parts, such as near or face"
        yield problem(at + "/sides", f"a {promise.kind} promise takes {what}", "bad-promise")


def _pointed(answer: DryFit) -> DryFit:
    """Point findings about a step at that step of the request."""

    def pointed(f: Finding) -> Finding:
        if f.unit != "step" or f.value is None:
            return f
        return replace(f, pointer="/assembly" + pointer("steps", int(f.value) - 1))

    return replace(answer, findings=tuple(pointed(f) for f in answer.findings))
