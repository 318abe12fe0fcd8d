import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('orders', '0005_calendar_links'),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name='Made',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('act', models.CharField(max_length=120)),
                ('at', models.DateTimeField(default=django.utils.timezone.now)),
                ('by', models.ForeignKey(db_index=False, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('garment', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='made', to='orders.garment')),
            ],
            options={
                'ordering': ('at', 'pk'),
            },
        ),
        migrations.AddConstraint(
            model_name='made',
            constraint=models.UniqueConstraint(fields=('garment', 'act'), name='an_act_is_done_once'),
        ),
        migrations.AddField(
            model_name='garment',
            name='fitted_well_on',
            field=models.DateField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name='garment',
            name='started_from',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.SET_NULL, related_name='+', to='orders.garment'),
        ),
    ]
