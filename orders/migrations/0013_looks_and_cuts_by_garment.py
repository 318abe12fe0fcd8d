"""What was agreed and cut for an order was agreed and cut for its garments: all orders had one."""

from django.db import migrations
from django.db.models import OuterRef, Subquery


def tell_garments(apps, schema_editor):
    Garment, Look, Order = (apps.get_model("orders", name) for name in ("Garment", "Look", "Order"))
    first = Garment.objects.filter(order=OuterRef("order")).order_by("pk").values("pk")[:1]
    Look.objects.filter(garment=None).update(garment=Subquery(first))
    cut = Order.objects.filter(pk=OuterRef("order")).values("was_cut_on")[:1]
    Garment.objects.exclude(cut_draft=None).update(was_cut_on=Subquery(cut))


class Migration(migrations.Migration):
    dependencies = [("orders", "0012_several_garments_repairs_and_after")]
    operations = [migrations.RunPython(tell_garments, migrations.RunPython.noop)]
