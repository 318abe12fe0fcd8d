from django.db import migrations


class Migration(migrations.Migration):
    dependencies = [("orders", "0025_garments_of_signed_orders")]
    operations = [migrations.RemoveField("order", name) for name in ("cut_despite", "signed_off_at", "signed_off_by", "why_cut")]
