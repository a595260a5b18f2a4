"""What the worker is sent: each task hands its number to one service."""

from __future__ import annotations

from celery import shared_task

from kits.sheets.models import RenderRun
from kits.sheets.renders import render_execute, render_sweep

__all__ = ["render", "sweep_renders"]


@shared_task(name=RenderRun.TASK)
def render(run: int) -> None:
    render_execute(run)


@shared_task(name="sheets.sweep_renders")
def sweep_renders() -> None:
    render_sweep()
