"""The queue: what sends messages to workers, and what a worker and the clock are started from."""

from __future__ import annotations

import os
from typing import Any

from celery import Celery, Task

from config.log_lines import bound

__all__ = ["app"]

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")


class _Task(Task[Any, Any]):
    """A task whose log lines name it and the row that its message speaks of."""

    def __call__(self, *args: Any, **kwargs: Any) -> Any:
        with bound(task=self.name, **({"run": args[0]} if args else {})):
            return super().__call__(*args, **kwargs)


app = Celery("kitproof", task_cls=_Task)
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks()
# For every thread: those of a web server have no queue of their own.
app.set_default()
