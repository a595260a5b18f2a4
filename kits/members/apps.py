from django.apps import AppConfig


class MembersConfig(AppConfig):
    name = "kits.members"
    label = "members"
