from django.apps import AppConfig

from workshop import days_read_once


class WorkshopConfig(AppConfig):
    name = "workshop"

    def ready(self) -> None:
        days_read_once.begin()
