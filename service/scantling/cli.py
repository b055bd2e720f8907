"""The command line: `scantling serve | plan | demo | check-plugin | openapi | settings`.

Every command says in one line what is wrong and ends with a code other than 0; a traceback is a fault of ours.
"""

import argparse
import json
import sys
from collections import Counter
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from scantling import __version__

if TYPE_CHECKING:
    from scantling.api.settings import Settings

EXIT_BAD_INPUT = 2
EXIT_FAILED = 1
SERVE_OPTIONS = ("host", "port", "workers", "root_path", "log_level")
Command = Callable[[argparse.Namespace], int]


class CommandError(Exception):
    """Ends a command with one line and a code."""

    def __init__(self, message: str, code: int = EXIT_BAD_INPUT) -> None:
        self.code = code
        super().__init__(message)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    parser = _parser()
    given = parser.parse_args(arguments)
    command: Command | None = getattr(given, "command", None)
    if command is None:
        parser.print_help()
        return EXIT_BAD_INPUT
    try:
        return command(given)
    except CommandError as error:
        print(f"scantling: {error}", file=sys.stderr)
        return error.code
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="scantling", description="Woodworking computed: parts, fasteners, sheets, cost."
    )
    parser.add_argument("--version", action="version", version=f"scantling {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="")
    _add_serve(commands)
    plan = commands.add_parser("plan", help="plan a project without a service")
    plan.add_argument("project", type=Path, metavar="PROJECT.json", help="what would be posted to /v1/projects")
    plan.add_argument("--out", type=Path, required=True, metavar="DIR", help="folder for the plan and its tables")
    plan.set_defaults(command=_plan)
    demo = commands.add_parser("demo", help="serve, plan a demonstration set and write what comes of it")
    demo.add_argument("--out", type=Path, default=Path("demo-plan"), metavar="DIR", help="folder (default: demo-plan)")
    demo.set_defaults(command=_demo)
    check = commands.add_parser("check-plugin", help="load one plugin and say what it gives or why it fails")
    check.add_argument("name", metavar="NAME", help="name of the plugin: its entry point's, or its manifest's")
    check.add_argument("--conform", action="store_true", help="try it by the test kit too: every rule, at many points")
    check.set_defaults(command=_check_plugin)
    document = commands.add_parser("openapi", help="print the OpenAPI document")
    document.set_defaults(command=_openapi)
    settings = commands.add_parser("settings", help="list the settings and their variables")
    settings.set_defaults(command=_settings)
    return parser


def _add_serve(commands: Any) -> None:  # noqa: ANN401 - argparse has no public type for it
    serve = commands.add_parser("serve", help="run the service", description="Options rule over SCANTLING_… variables.")
    serve.add_argument("--host", help="address to listen on (default: 127.0.0.1)")
    serve.add_argument("--port", type=int, help="port to listen on (default: 8000; 0: a free one)")
    serve.add_argument("--workers", type=int, help="worker processes for the computing")
    serve.add_argument("--root-path", help="sub-path under which a proxy shows the service")
    serve.add_argument("--log-level", choices=["critical", "error", "warning", "info", "debug"])
    serve.set_defaults(command=_serve)


def _serve(given: argparse.Namespace) -> int:
    from scantling.api.serve import serve

    return serve(_settings_given(**{name: getattr(given, name) for name in SERVE_OPTIONS}))


def _settings_given(**given: object) -> "Settings":
    """Return the settings. Raises CommandError for one that cannot be used."""
    from scantling.api.settings import SettingsError, load_settings

    try:
        return load_settings(**given)
    except SettingsError as error:
        raise CommandError(str(error)) from error


def _plan(given: argparse.Namespace) -> int:
    from scantling.api.offline import OfflineProblem, plan_project
    from scantling.api.settings import plugin_choice
    from scantling.work import SeamError

    try:
        body = json.loads(given.project.read_text(encoding="utf-8"))
    except OSError as error:
        raise CommandError(f"{given.project} cannot be read: {error.strerror}") from error
    except ValueError as error:
        raise CommandError(f"{given.project} is not JSON: {error}") from error
    try:
        written = plan_project(body, given.out, plugin_choice(_settings_given()))
    except OfflineProblem as error:
        raise CommandError(f"{given.project} cannot be planned:\n  " + "\n  ".join(error.lines)) from error
    except SeamError as error:
        raise CommandError(f"{given.project} cannot be planned: {error}", EXIT_FAILED) from error
    except OSError as error:
        raise CommandError(f"{given.out} cannot be written: {error.strerror}", EXIT_FAILED) from error
    for line in written.summary:
        print(line)
    print(f"wrote {len(written.files)} files to {given.out}: {', '.join(_named(written.files, given.out))}")
    return 0


def _named(files: Sequence[Path], folder: Path) -> list[str]:
    """Return files by name, those in a folder of their own as the folder and their number."""
    inside = [path.relative_to(folder) for path in files]
    counts = Counter(path.parts[0] for path in inside if len(path.parts) > 1)
    return [str(path) for path in inside if len(path.parts) == 1] + [f"{n} in {name}/" for name, n in counts.items()]


def _demo(given: argparse.Namespace) -> int:
    from scantling.demo import demo

    code: int = demo(given.out)
    return code


def _check_plugin(given: argparse.Namespace) -> int:
    from scantling.plugins import check_plugin

    settings = _settings_given()
    report = check_plugin(given.name, folder=settings.plugins_folder, named=settings.plugins, conform=given.conform)
    for warned in report["warnings"]:
        print(f"scantling: {warned['message']}", file=sys.stderr)
    print(json.dumps(report, indent=2, ensure_ascii=False))
    return 0 if report["passed"] else EXIT_FAILED


def _openapi(given: argparse.Namespace) -> int:
    from scantling.api.openapi import text

    sys.stdout.write(text())
    return 0


def _settings(given: argparse.Namespace) -> int:
    from scantling.api.settings import table

    for row in table():
        print(f"{row['variable']:<28} {row['default'] or '-':<36} {row['meaning']}")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
