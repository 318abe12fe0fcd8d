from decimal import Decimal

from django.db import migrations, models
from django.db.models import F, OuterRef, Q, Subquery, Sum, Value
from django.db.models.functions import Coalesce, Round

AMOUNT = {"max_digits": 13, "decimal_places": 3}


def add_up(apps, schema_editor):
    payments = apps.get_model("orders", "Payment").objects.filter(order=OuterRef("pk")).order_by().values("order")
    each = Subquery(payments.annotate(sum=Sum("amount")).values("sum"))
    known = Coalesce(each, Value(Decimal(0)), output_field=models.DecimalField(**AMOUNT))
    apps.get_model("orders", "Order").objects.update(paid=Round(known, precision=3))


class Migration(migrations.Migration):
    dependencies = [("orders", "0016_signed_off_all_the_same")]

    operations = [
        migrations.AddField("order", "paid", models.DecimalField(default=Decimal(0), editable=False, **AMOUNT)),
        migrations.RunPython(add_up, migrations.RunPython.noop),
        migrations.AddIndex(
            "order",
            models.Index(
                fields=["closed_on", "serial"],
                condition=Q(Q(price__gt=F("paid")) | Q(price__lt=F("paid")) | Q(kept__gt=F("paid")) | Q(kept__lt=F("paid")), is_open=False),
                name="order_over_unsettled",
            ),
        ),
    ]
