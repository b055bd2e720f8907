"""The demonstration: an invented terrace, planned through the service as a stranger's client would."""

from .project import demo_project
from .run import demo

__all__ = ["demo", "demo_project"]
