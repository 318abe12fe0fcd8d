from django.apps import AppConfig


class OrdersConfig(AppConfig):
    name = "orders"

    def ready(self):
        from clients import expected, panels
        from orders.measuring import clients_of, wanted_by
        from orders.of_client import of_client

        panels.register(of_client)
        expected.register(clients_of=clients_of, wanted_by=wanted_by)
        expected.keep_at_hand("orders:at-hand", "Work at hand")
