"""The published contract, fuzzed by schemathesis: examples, coverage, fuzzing, and walks along the links.

The quick depth runs few examples an operation; SCANTLING_TEST_DEPTH=full runs those of schemathesis.toml.
"""

import os
from collections import Counter
from pathlib import Path

import pytest
import schemathesis
from hypothesis import HealthCheck, settings
from schemathesis.checks import CHECKS
from schemathesis.config import SchemathesisConfig
from schemathesis.generation.meta import TestPhase

from scantling.api import Settings, create_app
from scantling.api.rules import CROSS_FIELD_RULES
from scantling.work import InlineSeam, Limits

ROOT = Path(__file__).parents[2]
FULL = os.environ.get("SCANTLING_TEST_DEPTH") == "full"
EXAMPLES, WALKS = (15, 10) if FULL else (4, 4)
SECONDS = 2.0 if FULL else 0.2  # for one job: the search hands back its best before
FIGURES = "board-feet", "mitre-and-bevel", "sheets-needed"  # in the quick depth; the others work alike
EVERY = 4 if FULL else 12


class SampledSeam(InlineSeam):
    """Computes every job but projects and papers, of those only a sample: one in twelve, or one in four.

    A project takes half a second and the coverage phase sends some hundred that differ in one member. What is not
    computed gets the last answer, so that the door is tried by all of them and the plan by a sample.
    """

    def __init__(self, limits):
        super().__init__(limits)
        self.asked = Counter()
        self.last = {}

    async def run_json(self, operation, request, progress=None):
        """Answer a job."""
        if operation not in ("projects", "papers"):
            return await super().run_json(operation, request, progress)
        self.asked[operation] += 1
        if operation not in self.last or self.asked[operation] % EVERY == 0:
            self.last[operation] = await super().run_json(operation, request, progress)
        return self.last[operation]


@schemathesis.hook
def before_call(context, case, kwargs):
    """Ask for real status codes: `errors=inline` is for cells that cannot see any, and has tests of its own."""
    if case.query and case.query.get("errors") == "inline":
        del case.query["errors"]


@schemathesis.check
def only_published_rules(context, response, case):
    """A body that fits its schema is refused only with the code of a published cross-field rule."""
    if case.meta is None or not case.meta.generation.mode.is_positive or response.status_code != 422:
        return
    body = response.json()
    codes = {entry["code"] for entry in body.get("errors", ())}
    slug = body["type"].rsplit("/", 1)[1]
    assert slug == "answer-too-large" or (codes and codes <= set(CROSS_FIELD_RULES)), body


@schemathesis.check
def whole_problem_documents(context, response, case):
    """Every 4xx and 5xx is a problem document with the request's id."""
    if response.status_code >= 400:
        assert response.headers["content-type"] == ["application/problem+json"]
        body = response.json()
        assert body["status"] == response.status_code
        assert [body["request_id"]] == response.headers["x-request-id"]


def _schema():
    config = SchemathesisConfig.from_path(ROOT / "schemathesis.toml")
    config.projects.default.generation.max_examples = EXAMPLES
    app = create_app(Settings(allowed_hosts=("*",), access_log=False), SampledSeam(Limits(time_limit=SECONDS)))
    whole = schemathesis.openapi.from_asgi("/openapi.json", app, config=config)
    if FULL:
        return whole
    return whole.exclude(func=lambda context: _is_left_out(context.operation.path))


def _is_left_out(path):
    return path.startswith("/v1/figures/") and not path.endswith(FIGURES)


schema = _schema()
LIMITS = settings(
    max_examples=EXAMPLES, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True, database=None
)


SENT = Counter()
WHOLE, THEN_EVERY = (600, 4) if FULL else (150, 8)  # coverage cases of one operation


@schema.parametrize()
@LIMITS
def test_every_operation_keeps_the_contract(case):
    if case.meta.phase.name == TestPhase.COVERAGE:
        SENT[case.operation.label] += 1
        sent = SENT[case.operation.label]
        if sent > WHOLE and sent % THEN_EVERY:
            return  # the large requests have some two thousand of them
    case.call_and_validate()


class TestWalks(schema.as_state_machine().TestCase):
    """Walks along the links of the document: from a catalogue to what it names, from a module to its parts."""

    settings = settings(
        max_examples=WALKS,
        stateful_step_count=4,
        deadline=None,
        suppress_health_check=list(HealthCheck),
        derandomize=True,
        database=None,
    )


def test_the_checks_that_look_for_nothing_here_are_named():
    """Every check of schemathesis runs, but those for sign-in and for resources that are kept."""
    off = {"ignored_auth", "object_level_authorization", "use_after_free", "ensure_resource_availability"}
    names = set(CHECKS.get_all_names())
    config = schema.config.checks_config_for(operation=next(schema.get_all_operations()).ok())
    enabled = {name for name in names if config.get_by_name(name=name).enabled}
    assert names - enabled == off
    assert {"positive_data_acceptance", "negative_data_rejection", "only_published_rules"} <= enabled


@pytest.mark.parametrize("code", sorted(CROSS_FIELD_RULES))
def test_every_rule_that_a_client_may_meet_is_published(code):
    from contract.contract_helpers import FakeSeam, client_for

    with client_for(FakeSeam()) as client:
        listed = {c["code"]: c["cross_field"] for c in client.get("/v1/problems/invalid-request").json()["codes"]}
    assert listed[code] is True
