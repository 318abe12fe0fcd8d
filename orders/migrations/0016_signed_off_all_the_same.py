from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("orders", "0015_cloths_of_what_is_made")]

    operations = [
        migrations.AddField("order", "cut_despite", models.CharField(blank=True, max_length=300)),
        migrations.AddField("order", "why_cut", models.CharField(blank=True, max_length=200)),
    ]
