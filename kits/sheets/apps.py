from django.apps import AppConfig


class SheetsConfig(AppConfig):
    name = "kits.sheets"
    label = "sheets"
