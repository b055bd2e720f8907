"""The plugin host: finds plugins, loads them one by one, runs their code behind guards, and says what failed and why.

A plugin is an object that declares which interface it speaks and implements hooks of `scantling.kit.hooks`. One that
cannot be loaded is listed with the reason and harms no other. Plugin code is loaded and run in worker processes only;
the door never imports this package.
"""

from scantling.plugin_check import SPOKEN, UNTIL

from .candidate import Candidate, Entry
from .discovery import GROUP, from_name, in_folder, installed
from .guard import PluginFailed
from .host import PluginHost
from .loading import CALL_SECONDS, load_host
from .operations import plugins
from .report import check_plugin

__all__ = [
    "CALL_SECONDS", "GROUP", "SPOKEN", "UNTIL", "Candidate", "Entry", "PluginFailed", "PluginHost",
    "check_plugin", "from_name", "in_folder", "installed", "load_host", "plugins",
]  # fmt: skip
