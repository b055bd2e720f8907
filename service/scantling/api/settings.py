"""Settings of the service: one typed object, read from `SCANTLING_…` variables; none is required.

The fields below are the one table of settings: name, default and sentence. `table()` prints it.
"""

import os
from typing import Annotated, Literal

from pydantic import Field, ValidationError, field_validator
from pydantic_settings import BaseSettings, NoDecode, SettingsConfigDict

from scantling.work import PluginChoice

PREFIX = "SCANTLING_"
NOT_SETTINGS = ("SCANTLING_TEST_", "SCANTLING_BENCH_")  # read by the tests and benches, never by the service

Names = Annotated[tuple[str, ...], NoDecode]


class SettingsError(ValueError):
    """A setting holds something the service cannot use; the message names the variable and what it takes."""


class Settings(BaseSettings):
    """Every setting of the service. Lists are comma-separated."""

    model_config = SettingsConfigDict(env_prefix=PREFIX, extra="ignore", frozen=True)

    host: str = Field("127.0.0.1", description="Address to listen on.")
    port: int = Field(8000, ge=0, le=65535, description="Port to listen on; 0 takes a free one.")
    root_path: str = Field(
        "", pattern=r"^(/[A-Za-z0-9._~-]+)*$", description="Sub-path under which a proxy shows the service."
    )
    allowed_hosts: Names = Field(
        ("localhost", "127.0.0.1", "[::1]", "scantling"),
        description="Host names the service answers to; `*` for any. Guards a home network against DNS rebinding.",
    )
    cors_origins: Names = Field(
        (), description="Web origins whose pages may call the service; empty for none, `*` for any."
    )
    forwarded_allow_ips: str = Field(
        "127.0.0.1", description="Proxies whose X-Forwarded-… headers are believed (addresses, comma-separated)."
    )
    workers: int = Field(
        0,
        ge=0,
        le=64,
        description="Worker processes for the computing; 0 leaves one core to the door and takes two at most.",
    )
    queue: int = Field(8, ge=0, le=1000, description="Jobs that may wait for a worker before the answer is 503.")
    jobs_per_client: int = Field(
        0, ge=0, le=1000, description="Jobs one client address may have running before it gets 429; 0 for no limit."
    )
    time_limit: float = Field(
        20.0, gt=0, le=3600, description="Seconds one job may take before its worker is stopped (503 time-limit)."
    )
    body_limit: int = Field(
        2 * 1024 * 1024, ge=1024, le=256 * 1024 * 1024, description="Largest request body in bytes (413 above it)."
    )
    plugins_allow: Names = Field((), description="Plugins to load, by name; empty for all that are installed.")
    plugins_block: Names = Field((), description="Plugins not to load, by name; `*` for none at all.")
    plugins_folder: str = Field("", description="Folder of plugins that are not installed; empty for none.")
    plugins: Names = Field((), description="Further plugins to load, each as module:object.")
    plugin_seconds: float = Field(
        5.0,
        gt=0,
        le=600,
        description="Seconds one call of a plugin's code may take before it is given up; loading it takes up to twice.",
    )
    plugins_strict: bool = Field(False, description="Refuse to start when a plugin fails to load.")
    drain: int = Field(8, ge=0, le=120, description="Seconds a stopping service waits for running requests.")
    log_level: Literal["critical", "error", "warning", "info", "debug"] = Field(
        "info", description="How much is written to standard output."
    )
    access_log: bool = Field(True, description="Write one line for each request, health probes left out.")

    @field_validator("allowed_hosts", "cors_origins", "plugins_allow", "plugins_block", "plugins", mode="before")
    @classmethod
    def _split(cls, value: object) -> object:
        if isinstance(value, str):
            return tuple(part.strip() for part in value.split(",") if part.strip())
        return value


def plugin_choice(settings: Settings) -> PluginChoice:
    """Return which plugins the settings ask for."""
    return PluginChoice(
        settings.plugins_allow,
        settings.plugins_block,
        settings.plugins_folder,
        settings.plugins,
        settings.plugin_seconds,
    )


def load_settings(**given: object) -> Settings:
    """Return the settings from the environment, `given` ruling. Raises SettingsError with one line a variable."""
    try:
        return Settings(**{name: value for name, value in given.items() if value is not None})  # type: ignore[arg-type]
    except ValidationError as error:
        lines = [f"{variable(str(e['loc'][0]))}={e.get('input')!r}: {e['msg']}" for e in error.errors()]
        raise SettingsError("; ".join(lines)) from error


def variable(field: str) -> str:
    """Return the variable's name for a field."""
    return PREFIX + field.upper()


def unknown_variables() -> list[str]:
    """Return the names of variables with our prefix that are no setting: most likely misspelt."""
    known = {variable(name) for name in Settings.model_fields}
    ours = [name for name in os.environ if name.startswith(PREFIX) and not name.startswith(NOT_SETTINGS)]
    return sorted(set(ours) - known)


def table() -> list[dict[str, str]]:
    """Return one row a setting: variable, default and sentence."""
    return [
        {"variable": variable(name), "default": _shown(field.default), "meaning": field.description or ""}
        for name, field in Settings.model_fields.items()
    ]


def _shown(default: object) -> str:
    if isinstance(default, tuple):
        return ",".join(str(part) for part in default)
    return str(default).lower() if isinstance(default, bool) else str(default)
