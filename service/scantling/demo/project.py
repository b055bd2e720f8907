"""The demonstration project: two seat runs, the corner seat that joins them and two footstools; all invented."""

import json
from importlib import resources
from typing import Any


def demo_project() -> dict[str, Any]:
    """Return the project as it is posted to /v1/projects; sizes, prices and saws are invented."""
    text = (resources.files(__package__) / "project.json").read_text(encoding="utf-8")
    project: dict[str, Any] = json.loads(text)
    return project
