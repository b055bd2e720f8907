"""Will it hold, tip, sag or rot: one file a subject, pure functions of numbers, each with its published source."""

from .fastener_answer import FastenerCheck
from .fastener_check import check_joint, fastener_checks

__all__ = ["FastenerCheck", "check_joint", "fastener_checks"]
