"""What a plugin's answers must be: checked by the host when it loads a plugin, and by the test kit."""

from .calls import look, whole_piece, write
from .contexts import context_for
from .fault import Fault, called
from .interface import (
    ARGUMENT,
    SPOKEN,
    UNTIL,
    Warned,
    check_hooks,
    declared_interface,
    deprecated,
    implemented_hooks,
)
from .manifest import FILE as MANIFEST
from .manifest import Manifest, hold_to, manifest_of, read_manifest
from .modules import check_module_class, check_module_classes
from .offer import CONTEXTS, HOOKS, SORTS, Offer, read_offer

__all__ = [
    "ARGUMENT", "CONTEXTS", "HOOKS", "MANIFEST", "SORTS", "SPOKEN", "UNTIL", "Fault", "Manifest", "Offer", "Warned",
    "called", "check_hooks", "check_module_class", "check_module_classes", "context_for", "declared_interface",
    "deprecated", "hold_to", "implemented_hooks", "look", "manifest_of", "read_manifest", "read_offer", "whole_piece",
    "write",
]  # fmt: skip
