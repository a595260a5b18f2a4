"""What the worker is sent: each task hands its number to one service."""

from __future__ import annotations

from typing import Any

from celery import shared_task
from celery.signals import worker_shutting_down

from layouts import jobs
from layouts.checks import check_execute, check_sweep, check_tidy
from layouts.models import CheckRun

__all__ = ["check", "leave_jobs", "sweep_checks", "tidy_checks"]


@shared_task(name=CheckRun.TASK)
def check(run: int) -> None:
    check_execute(run)


@shared_task(name="layouts.sweep_checks")
def sweep_checks() -> None:
    check_sweep()


@shared_task(name="layouts.tidy_checks")
def tidy_checks() -> None:
    check_tidy()


@worker_shutting_down.connect
def leave_jobs(**told: Any) -> None:
    """Stop working on what would keep the worker from stopping; the next one goes on with it."""
    jobs.stopping.set()
