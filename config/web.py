"""How gunicorn serves the pages: read by it as `python:config.web`; the names are its settings."""

from __future__ import annotations

from typing import Any

from config.supervisor.launch import die_with_parent

workers = 2
# Read once, and shared by both.
preload_app = True
worker_class = "gthread"
threads = 4
timeout = 30
# Seconds for a page under way when it is stopped; who stops it waits 10.
graceful_timeout = 8
# A socket for commands from outside would be one more thing to guard.
control_socket_disable = True
logconfig_dict = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"json": {"()": "config.log_lines.JsonLine"}},
    "handlers": {"lines": {"class": "logging.StreamHandler", "formatter": "json"}},
    "root": {"handlers": ["lines"], "level": "WARNING"},
    # Requests have lines of their own (config/request_lines.py).
    "loggers": {"gunicorn.error": {"level": "INFO", "handlers": ["lines"], "propagate": False}},
}


def post_fork(server: Any, worker: Any) -> None:
    """Let no process that serves pages outlive the one that watches it."""
    die_with_parent(server.pid)
