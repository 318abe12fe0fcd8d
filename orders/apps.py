from django.apps import AppConfig


class OrdersConfig(AppConfig):
    name = "orders"

    def ready(self):
        from clients import panels
        from orders.of_client import of_client

        panels.register(of_client)
