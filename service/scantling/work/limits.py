"""How much the service takes on: for one job, for all jobs together, and for one request.

Plain values; where they come from (settings, a test) is the caller's affair.
"""

import os
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

_CGROUP = Path("/sys/fs/cgroup")


@dataclass(frozen=True, slots=True)
class RequestLimits:
    """How much one request may ask for; above it the request is refused before any computing."""

    body_bytes: int = 2 * 1024 * 1024
    kinds_per_nesting: int = 500
    pieces_per_nesting: int = 20_000
    parts_per_module: int = 400
    modules_per_project: int = 40
    lines_per_costing: int = 1_000


@dataclass(frozen=True, slots=True)
class Limits:
    """How the pool behaves.

    `time_limit` is in seconds, counted from when a worker takes the job; `time_limits` overrides it by operation.
    An operation that watches the clock is told `grace` seconds less, so that it hands back its best before it is
    killed. `wait_limit` is how long a job may wait for a worker before it is refused as busy, `start_limit` how
    long a free worker may take to take it. `answer_bytes` bounds an answer, `memory_bytes` the address space of a
    worker (None: unbounded). A worker is replaced after `jobs_per_worker` jobs.
    """

    workers: int = 1
    queue: int = 8
    time_limit: float = 20.0
    time_limits: Mapping[str, float] = field(default_factory=dict)
    grace: float = 2.0
    wait_limit: float = 20.0
    start_limit: float = 30.0
    retry_after: int = 2
    answer_bytes: int = 32 * 1024 * 1024
    memory_bytes: int | None = None
    jobs_per_worker: int = 2_000

    def seconds(self, operation: str) -> float:
        """Return after how many seconds a job of this operation is killed."""
        return self.time_limits.get(operation, self.time_limit)

    def soft_seconds(self, operation: str) -> float:
        """Return the seconds an operation that watches the clock may use; at least half of the hard limit."""
        hard = self.seconds(operation)
        return max(hard - self.grace, hard / 2)


def usable_cores(cgroup: Path = _CGROUP) -> int:
    """Return how many cores this process may use: the affinity mask, cut down by a container's CPU quota."""
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    quota = _cpu_quota(cgroup)
    return max(1, cores if quota is None else min(cores, int(quota)))


def default_workers(cgroup: Path = _CGROUP) -> int:
    """Return how many workers to run where nobody said: one core is left to the door, and two workers are enough."""
    return max(1, min(2, usable_cores(cgroup) - 1))


def _cpu_quota(cgroup: Path) -> float | None:
    """Return the cores that a control group (version 2, then 1) grants; None without a quota."""
    try:
        quota, period = (cgroup / "cpu.max").read_text().split()
    except (OSError, ValueError):
        try:
            quota = (cgroup / "cpu" / "cpu.cfs_quota_us").read_text().strip()
            period = (cgroup / "cpu" / "cpu.cfs_period_us").read_text().strip()
        except OSError:
            return None
    if not (quota.isdecimal() and period.isdecimal() and int(period)):
        return None
    return int(quota) / int(period)
