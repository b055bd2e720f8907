"""Client for the scantling service: post plain data, get plain data, or a Problem that says what is wrong."""

from .batch import Failed, run_batch
from .client import Client
from .errors import Problem, ProblemEntry, ScantlingError, ServiceUnreachable

__all__ = ["Client", "Failed", "Problem", "ProblemEntry", "ScantlingError", "ServiceUnreachable", "run_batch"]
