"""What a plugin's answers must be: checked by the host when it loads a plugin, and by the test kit."""

from .calls import look, whole_piece, write
from .fault import Fault, called
from .modules import check_module_class, check_module_classes
from .offer import CONTEXTS, HOOKS, SORTS, Offer, read_offer

__all__ = [
    "CONTEXTS", "HOOKS", "SORTS", "Fault", "Offer", "called", "check_module_class", "check_module_classes", "look",
    "read_offer", "whole_piece", "write",
]  # fmt: skip
