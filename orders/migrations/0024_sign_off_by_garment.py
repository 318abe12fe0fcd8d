from django.conf import settings
from django.db import migrations, models
from django.db.models.deletion import PROTECT


class Migration(migrations.Migration):
    dependencies = [
        ("orders", "0023_spoiled_pieces"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]
    operations = [
        migrations.AddField("garment", "cut_despite", models.CharField(blank=True, max_length=300)),
        migrations.AddField("garment", "signed_off_at", models.DateTimeField(blank=True, null=True)),
        migrations.AddField(
            "garment",
            "signed_off_by",
            models.ForeignKey(blank=True, db_index=False, null=True, on_delete=PROTECT, related_name="+", to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField("garment", "why_cut", models.CharField(blank=True, max_length=200)),
    ]
