from django.apps import AppConfig


class OrdersConfig(AppConfig):
    name = "orders"

    def ready(self):
        from clients import expected, panels

        panels.register(of_client)
        expected.register(clients_of=clients_of, wanted_by=wanted_by)
        expected.keep_at_hand("orders:at-hand", "Work at hand")


# What stands behind these loads all that drafts and lays: too much for a program that only prints or migrates.


def of_client(client, person):
    from orders import of_client as behind

    return behind.of_client(client, person)


def clients_of(day):
    from orders import measuring

    return measuring.clients_of(day)


def wanted_by(client):
    from orders import measuring

    return measuring.wanted_by(client)
