from django.apps import AppConfig


class ClientsConfig(AppConfig):
    name = "clients"

    def ready(self):
        from clients import fit_notes  # noqa: F401  its models belong to this app
