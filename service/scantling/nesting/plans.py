"""The plan that is chosen among several ways to cut a job, by the caller's aims in their order."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from scantling.findings import Finding, Severity
from scantling.measure import plain_money

from .nouns import Aim, Job, Measures, Nesting, Plan

CHEAPEST = "cheapest"
EASIER = "easier to cut"
_WHOLE = 10_000


@dataclass(frozen=True, slots=True)
class Candidate:
    """One way to cut the job and what it is like."""

    nesting: Nesting
    measures: Measures


def choose(job: Job, candidates: Sequence[Candidate]) -> Nesting:
    """Return the nesting of the chosen candidate, with the plans it was chosen from and a finding where they differ.

    Nothing missing comes first, then no cut beyond the saws, then the aims of the job. Costs within its worth of the
    cheapest candidate count as equal. So, while money is the first aim, the plan chosen never costs more than the
    cheapest found by more than that worth; and because the cheapest found never gets dearer with more effort, neither
    does that limit. Of the later aims no more is promised than that no other candidate is better by them.
    """
    cheapest = min(candidates, key=lambda c: (_sound(c), c.measures.objective, *_rank(job, c, None)))
    level = [c for c in candidates if _sound(c) == _sound(cheapest)]
    least = cheapest.measures.objective
    chosen = min(level, key=lambda c: (*_rank(job, c, least), c.measures.objective, *_ease(c)))
    if chosen.measures.objective == least:
        cheapest = chosen
    near = [c for c in level if within_worth(job, c.measures.objective, least)]
    easier = min(near, key=lambda c: (*_ease(c), c.measures.objective))
    if _ease(chosen) <= _ease(easier):
        easier = chosen
    named = [(chosen, CHEAPEST if chosen is cheapest else EASIER if chosen is easier else "as asked")]
    named += [(cheapest, CHEAPEST)] if cheapest is not chosen else []
    named += [(easier, EASIER)] if easier is not chosen and easier is not cheapest else []
    plans = tuple(_plan(candidate, name, candidate is chosen) for candidate, name in named)
    nesting = chosen.nesting
    return replace(nesting, plans=plans, findings=(*nesting.findings, *_findings(plans)))


def _sound(candidate: Candidate) -> tuple[int, int]:
    return candidate.measures.missing, candidate.measures.beyond


def _ease(candidate: Candidate) -> tuple[int, int]:
    return candidate.measures.settings, candidate.measures.cuts


def within_worth(job: Job, objective: int, least: int) -> bool:
    """Tell whether a cost counts as equal to the least one."""
    return objective * _WHOLE <= least * (_WHOLE + job.aims.worth)


def _rank(job: Job, candidate: Candidate, least: int | None) -> tuple[int, ...]:
    """Return what a candidate is compared by, in the job's order; without `least` no cost is equal to another."""
    m = candidate.measures
    money = 0 if least is not None and within_worth(job, m.objective, least) else m.objective
    by_aim = {
        Aim.MONEY: money,
        Aim.REMAINDER: -m.remainder[0] * m.remainder[1],
        Aim.SETTINGS: m.settings,
        Aim.CUTS: m.cuts,
        Aim.LAYOUTS: m.layouts,
    }
    return tuple(by_aim[aim] for aim in job.aims.order)


def _plan(candidate: Candidate, name: str, chosen: bool) -> Plan:
    return Plan(name, candidate.measures, candidate.nesting.cost, candidate.nesting.layouts, chosen)


def in_words(plan: Plan) -> str:
    """Return what a plan costs and takes, for people."""
    m = plan.measures
    money = f"{m.layouts} different layouts" if plan.cost is None else plain_money(plan.cost)
    left = f"{m.remainder[0] / 100:g} × {m.remainder[1] / 100:g} mm left" if m.remainder[0] else "nothing left to keep"
    return f"{money}, {m.settings} saw settings, {m.cuts} cuts, {left}"


def choice_in_words(plans: Sequence[Plan]) -> str:
    """Return the plan that was chosen and what it was chosen from, for a summary; empty where there was no choice."""
    if len(plans) < 2:
        return ""
    words = []
    for plan in plans:
        cost = "" if plan.cost is None or plan.cost == plans[0].cost else f", {plain_money(plan.cost)}"
        this = "this plan is " if plan.chosen else ""
        words.append(f"{this}{plan.name}{cost}: {plan.measures.settings} saw settings, {plan.measures.cuts} cuts")
    return "; ".join(words)


def _findings(plans: Sequence[Plan]) -> list[Finding]:
    chosen = plans[0]
    findings = []
    for other in plans[1:]:
        cheaper = other.name == CHEAPEST
        code = "cheaper-plan" if cheaper else "easier-plan"
        remedy = (
            "Set `worth` of the objective to 0 to get the cheapest."
            if cheaper
            else "Put `settings` before `remainder` in the objective's order to get it, or pin its layouts."
        )
        message = f"Another plan is {other.name}: {in_words(other)}; this one: {in_words(chosen)}."
        findings.append(Finding(code, Severity.NOTE, message, remedy=remedy))
    return findings
