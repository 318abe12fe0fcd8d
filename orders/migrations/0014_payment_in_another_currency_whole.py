from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("orders", "0013_looks_and_cuts_by_garment")]

    operations = [
        migrations.RemoveConstraint(model_name="payment", name="payment_other_currency_whole"),
        migrations.AddConstraint(
            model_name="payment",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("other_amount__isnull", True), ("other_currency__isnull", True), ("rate__isnull", True)),
                    models.Q(
                        models.Q(("other_amount__isnull", False), ("other_currency__isnull", False), ("rate__isnull", False)),
                        ("amount__gt", 0),
                        ("other_amount__gt", 0),
                        ("rate__gt", 0),
                    ),
                    models.Q(
                        models.Q(("other_amount__isnull", False), ("other_currency__isnull", False), ("rate__isnull", False)),
                        ("amount__lt", 0),
                        ("other_amount__lt", 0),
                        ("rate__gt", 0),
                    ),
                    _connector="OR",
                ),
                name="payment_other_currency_whole",
                violation_error_message="Another currency needs its amount and its rate.",
            ),
        ),
    ]
