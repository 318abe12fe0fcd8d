"""What was signed off for an order was signed off for each of its garments: by the same person, at the same moment."""

from django.db import migrations
from django.db.models import OuterRef, Subquery

SIGN_OFF = ("signed_off_by", "signed_off_at", "cut_despite", "why_cut")


def tell_garments(apps, schema_editor):
    Garment, Order = apps.get_model("orders", "Garment"), apps.get_model("orders", "Order")
    said = Order.objects.filter(pk=OuterRef("order"))
    signed = Garment.objects.filter(put_away_on=None, order__in=Order.objects.exclude(signed_off_by=None).values("pk"))
    signed.update(**{name: Subquery(said.values(name)[:1]) for name in SIGN_OFF})
    find_again(apps)


def find_again(apps):
    """A garment that was cut before its order's sign-off was withdrawn for another one has its own in the history."""
    Change, Garment = apps.get_model("orders", "Change"), apps.get_model("orders", "Garment")
    for garment in Garment.objects.filter(signed_off_by=None, put_away_on=None, order__was_cut_on=None).exclude(cut_draft=None):
        told = Change.objects.filter(order=garment.order_id)
        cut = told.filter(field="was_cut_on", thing=garment.title).order_by("pk").last()
        signed = told.filter(field="signed_off_at", after="yes", thing="", **({"pk__lt": cut.pk} if cut else {})).order_by("pk").last()
        if signed and signed.by_id:
            Garment.objects.filter(pk=garment.pk).update(signed_off_by=signed.by_id, signed_off_at=signed.at)


class Migration(migrations.Migration):
    dependencies = [("orders", "0024_sign_off_by_garment")]
    #: Backwards nothing is signed off: the owner is asked again.
    operations = [migrations.RunPython(tell_garments, migrations.RunPython.noop)]
