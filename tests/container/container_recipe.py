"""Building and running the image without a container engine's daemon and without an image registry.

The base image is a stand-in of the same name, made from distribution packages by mmdebstrap. It proves the file,
stages, paths, user, environment, health check, signals, the read-only run and the run without a network; it does not
prove that the real base exists, nor other processors.
"""

import json
import os
import shutil
import ssl
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
BASE = "docker.io/library/python:3.11-slim"
IMAGE = "localhost/scantling:test"
TOOLS = ("podman", "buildah", "runc", "mmdebstrap")
PACKAGES = "podman buildah runc mmdebstrap uidmap fuse-overlayfs"
LIMITS = ("--ulimit", "nofile=1024:1024", "--ulimit", "nproc=1024:1024")
HARDENED = (
    "--network=none",
    "--read-only",
    "--tmpfs=/tmp",
    "--cap-drop=all",
    "--security-opt=no-new-privileges",
    "--pids-limit=128",
    "--memory=512m",
)


def missing() -> str:
    """Return why the image cannot be built here and what would help, or an empty string when it can."""
    if os.environ.get("SCANTLING_TEST_DEPTH") != "full":
        return "THE IMAGE WAS NOT BUILT: set SCANTLING_TEST_DEPTH=full to build and run it"
    if sys.platform != "linux":
        return f"THE IMAGE WAS NOT BUILT: the recipe needs Linux, this is {sys.platform}"
    absent = [tool for tool in TOOLS if shutil.which(tool) is None]
    if absent:
        return (
            f"THE IMAGE WAS NOT BUILT: {', '.join(absent)} missing; "
            f"on Debian: apt-get install --no-install-recommends {PACKAGES}"
        )
    if os.geteuid() != 0:
        return "THE IMAGE WAS NOT BUILT: the recipe needs root"
    return ""


@dataclass(frozen=True)
class Workshop:
    """A folder with a container storage of its own, so that nothing of the machine's is touched."""

    folder: Path

    def __post_init__(self) -> None:
        """Write the storage's configuration and a pip.conf that the build may see."""
        self.folder.mkdir(parents=True, exist_ok=True)
        (self.folder / "storage.conf").write_text(
            f'[storage]\ndriver = "vfs"\ngraphroot = "{self.folder}/graph"\nrunroot = "{self.folder}/run"\n',
            encoding="utf-8",
        )
        bundle = os.environ.get("PIP_CERT") or os.environ.get("SSL_CERT_FILE") or ssl.get_default_verify_paths().cafile
        lines = ["[global]"]
        if bundle:
            shutil.copy(bundle, self.folder / "ca.pem")
            lines.append("cert = /etc/pip-ca.pem")
        for name in ("INDEX_URL", "TRUSTED_HOST"):
            if os.environ.get(f"PIP_{name}"):
                lines.append(f"{name.lower().replace('_', '-')} = {os.environ[f'PIP_{name}']}")
        (self.folder / "pip.conf").write_text("\n".join(lines) + "\n", encoding="utf-8")

    def run(self, *command: str, seconds: float = 60, check: bool = True) -> subprocess.CompletedProcess[str]:
        """Run a command of the engine; a failure shows what it wrote."""
        environment = {**os.environ, "CONTAINERS_STORAGE_CONF": str(self.folder / "storage.conf")}
        done = subprocess.run(
            command, env=environment, capture_output=True, text=True, timeout=seconds, stdin=subprocess.DEVNULL
        )
        if check and done.returncode:
            raise AssertionError(
                f"{' '.join(command)} ended with {done.returncode}\n{done.stdout[-3000:]}\n{done.stderr[-5000:]}"
            )
        return done

    def podman(self, *command: str, seconds: float = 60, check: bool = True) -> subprocess.CompletedProcess[str]:
        """Run podman with the runtime that works under mixed cgroups."""
        return self.run("podman", "--runtime=runc", "--cgroup-manager=cgroupfs", *command, seconds=seconds, check=check)

    def build(self) -> None:
        """Make the stand-in base and build the image on it."""
        base = Path(os.environ.get("SCANTLING_TEST_BASE") or self.folder / "base.tar")
        if not base.exists():
            include = "--include=python3,python3-pip,python3-venv,ca-certificates"
            self.run("mmdebstrap", "--quiet", "--variant=minbase", include, "bookworm", str(base), seconds=600)
        self.podman("import", "--quiet", str(base), BASE, seconds=120)
        mounts = ["--volume", f"{self.folder}/pip.conf:/etc/pip.conf:ro"]
        if (self.folder / "ca.pem").exists():
            mounts += ["--volume", f"{self.folder}/ca.pem:/etc/pip-ca.pem:ro"]
        how = ("--isolation=chroot", "--network=host", "--pull-never", "--format=docker")
        self.run("buildah", "bud", *how, *mounts, "-t", IMAGE, str(ROOT), seconds=900)

    def inspect(self) -> dict:
        """Return what the image says of itself."""
        return json.loads(self.podman("inspect", "--type=image", IMAGE).stdout)[0]

    def start(self, name: str, *options: str) -> "Running":
        """Start the service in a container."""
        self.podman("run", "--detach", f"--name={name}", "--pull=never", *LIMITS, *options, IMAGE)
        return Running(self, name)

    def clear(self) -> None:
        """Remove containers, images and storage."""
        self.podman("rm", "--force", "--all", "--time=0", check=False)
        self.podman("rmi", "--force", "--all", check=False)
        shutil.rmtree(self.folder, ignore_errors=True)


@dataclass(frozen=True)
class Running:
    """A container that runs the service."""

    workshop: Workshop
    name: str

    def exec(self, *command: str, check: bool = True) -> subprocess.CompletedProcess[str]:
        """Run a command in the container."""
        return self.workshop.podman("exec", self.name, *command, check=check)

    def python(self, code: str) -> str:
        """Run Python code in the container with the service's interpreter and return what it printed."""
        return self.exec("/opt/venv/bin/python", "-c", code).stdout.strip()

    def health(self) -> subprocess.CompletedProcess[str]:
        """Run the image's health check once."""
        return self.workshop.podman("healthcheck", "run", self.name, check=False)

    def state(self) -> dict:
        """Return the container's state."""
        return json.loads(self.workshop.podman("inspect", "--type=container", self.name).stdout)[0]["State"]

    def logs(self) -> str:
        """Return what the service wrote."""
        done = self.workshop.podman("logs", self.name, check=False)
        return done.stdout + done.stderr
