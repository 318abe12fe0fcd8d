from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('orders', '0019_order_over_lately'),
    ]

    operations = [
        migrations.AddIndex(
            model_name='garment',
            index=models.Index(fields=['title', 'put_away_on', 'order'], name='garment_to_find'),
        ),
        migrations.AddIndex(
            model_name='order',
            index=models.Index(fields=['serial', 'client', 'number'], name='order_to_find'),
        ),
        migrations.AddIndex(
            model_name='order',
            index=models.Index(condition=models.Q(('brought_in', ''), _negated=True), fields=['brought_in'], name='order_brought_in_to_find'),
        ),
    ]
