"""The queue: what sends messages to workers, and what a worker and the clock are started from."""

from __future__ import annotations

import os
from typing import Any

from celery import Celery, Task
from kombu.transport import redis
from redis.exceptions import ConnectionError as BrokerLost

from config.log_lines import bound

__all__ = ["app"]

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")


class _Task(Task[Any, Any]):
    """A task whose log lines name it and the row that its message speaks of."""

    def __call__(self, *args: Any, **kwargs: Any) -> Any:
        with bound(task=self.name, **({"run": args[0]} if args else {})):
            return super().__call__(*args, **kwargs)


class _Channel(redis.Channel):
    """The way to the broker, which may have gone.

    A worker that lost its broker gives its connection up and then uses it once more: to hand its messages back, and
    when a task ends, to acknowledge that one's. The library (kombu 5.7) then stumbles over an address that it has
    forgotten, and the worker exits. As a lost connection it is one more thing that the worker waits out.
    """

    def _connparams(self, asynchronous: bool = False) -> Any:
        if self.connection is None or self.connection.client is None:
            raise BrokerLost("this connection to the broker was given up")
        return super()._connparams(asynchronous)  # type: ignore[misc]  # the stubs leave it out


redis.Transport.Channel = _Channel

app = Celery("kitproof", task_cls=_Task)
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks()
# For every thread: those of a web server have no queue of their own.
app.set_default()
