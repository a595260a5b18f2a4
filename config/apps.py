from django.apps import AppConfig


class FrameConfig(AppConfig):
    name = "config"
    label = "config"

    def ready(self) -> None:
        # Whoever has Django up can send messages. Not in config/__init__: the commands of the contract do without both.
        import config.celery  # noqa: F401
