"""Client for the scantling service: post plain data, get plain data, or a Problem that says what is wrong."""

from . import models
from .batch import Failed, run_batch
from .client import Client
from .errors import BadQuantity, Problem, ProblemEntry, ScantlingError, ServiceUnreachable

__all__ = [
    "BadQuantity",
    "Client",
    "Failed",
    "Problem",
    "ProblemEntry",
    "ScantlingError",
    "ServiceUnreachable",
    "models",
    "run_batch",
]
