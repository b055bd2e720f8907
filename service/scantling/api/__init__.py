"""The door: it parses requests, calls the seam, and renders answers."""

from .app import create_app
from .settings import Settings, load_settings

__all__ = ["Settings", "create_app", "load_settings"]
