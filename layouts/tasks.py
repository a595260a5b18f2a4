"""What the worker is sent: each task hands its number to one service."""

from __future__ import annotations

from celery import shared_task

from layouts.checks import check_execute, check_sweep
from layouts.models import CheckRun

__all__ = ["check", "sweep_checks"]


@shared_task(name=CheckRun.TASK)
def check(run: int) -> None:
    check_execute(run)


@shared_task(name="layouts.sweep_checks")
def sweep_checks() -> None:
    check_sweep()
