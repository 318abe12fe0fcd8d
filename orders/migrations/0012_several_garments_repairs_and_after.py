import django.db.models.deletion
import django.db.models.manager
import django.utils.timezone
from decimal import Decimal
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('clients', '0005_more_fit_places'),
        ('orders', '0011_price_shelf_and_market'),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name='ClothTest',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('version', models.PositiveIntegerField(default=1)),
                ('changed_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('needle', models.CharField(blank=True, max_length=40)),
                ('stitch', models.CharField(blank=True, max_length=60)),
                ('heat', models.CharField(blank=True, choices=[('cool', 'cool iron'), ('warm', 'warm iron'), ('hot', 'hot iron'), ('none', 'no iron')], max_length=10)),
                ('steam', models.CharField(blank=True, choices=[('steam', 'steam'), ('dry', 'dry only'), ('through', 'through a cloth')], max_length=10)),
                ('bleeds', models.CharField(blank=True, choices=[('no', 'does not bleed'), ('yes', 'bleeds')], max_length=10)),
                ('note', models.CharField(blank=True, max_length=160)),
                ('tested_on', models.DateField()),
            ],
            options={
                'abstract': False,
            },
        ),
        migrations.CreateModel(
            name='Complaint',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('version', models.PositiveIntegerField(default=1)),
                ('changed_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('told_on', models.DateField()),
                ('why', models.CharField(choices=[('ours', 'our fault'), ('body', 'the body changed'), ('cloth', 'the cloth')], max_length=10)),
                ('words', models.CharField(max_length=300)),
                ('to_do', models.CharField(max_length=300)),
                ('by_when', models.DateField()),
                ('price', models.DecimalField(decimal_places=3, default=0, max_digits=13)),
                ('settled_on', models.DateField(blank=True, null=True)),
            ],
            options={
                'ordering': ('pk',),
            },
        ),
        migrations.CreateModel(
            name='Mending',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('version', models.PositiveIntegerField(default=1)),
                ('changed_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('on_what', models.CharField(max_length=60)),
                ('what', models.CharField(max_length=80)),
                ('place', models.CharField(blank=True, max_length=30)),
                ('side', models.CharField(choices=[('both', 'both sides'), ('left', 'left'), ('right', 'right')], default='both', max_length=10)),
                ('is_more', models.BooleanField(default=False)),
                ('amount_written', models.CharField(blank=True, max_length=20)),
                ('amount_mm', models.DecimalField(blank=True, decimal_places=4, max_digits=9, null=True)),
                ('price', models.DecimalField(decimal_places=3, default=Decimal('0'), max_digits=13)),
                ('minutes', models.PositiveIntegerField(default=0)),
                ('done_at', models.DateTimeField(blank=True, null=True)),
            ],
            options={
                'ordering': ('pk',),
            },
        ),
        migrations.CreateModel(
            name='OutWork',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('version', models.PositiveIntegerField(default=1)),
                ('changed_at', models.DateTimeField(default=django.utils.timezone.now)),
                ('what', models.CharField(max_length=80)),
                ('to_whom', models.CharField(max_length=80)),
                ('gone_on', models.DateField()),
                ('due_back', models.DateField()),
                ('back_on', models.DateField(blank=True, null=True)),
                ('cost', models.DecimalField(blank=True, decimal_places=3, max_digits=13, null=True)),
                ('paid_on', models.DateField(blank=True, null=True)),
            ],
            options={
                'ordering': ('due_back', 'pk'),
            },
        ),
        migrations.CreateModel(
            name='RepairPrice',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('what', models.CharField(max_length=80)),
                ('price', models.DecimalField(decimal_places=3, max_digits=13)),
                ('minutes', models.PositiveIntegerField()),
                ('changed_at', models.DateTimeField(default=django.utils.timezone.now)),
            ],
            options={
                'ordering': ('what', 'pk'),
            },
        ),
        migrations.AlterModelOptions(
            name='garment',
            options={'base_manager_name': 'everything', 'ordering': ('pk',)},
        ),
        migrations.AlterModelManagers(
            name='garment',
            managers=[
                ('objects', django.db.models.manager.Manager()),
                ('everything', django.db.models.manager.Manager()),
            ],
        ),
        migrations.RemoveConstraint(
            model_name='order',
            name='order_open_unless_over',
        ),
        migrations.RemoveConstraint(
            model_name='order',
            name='order_stage_known',
        ),
        migrations.AddField(
            model_name='cloth',
            name='garment',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.SET_NULL, related_name='own_cloths', to='orders.garment'),
        ),
        migrations.AddField(
            model_name='fitting',
            name='is_toile',
            field=models.BooleanField(default=False),
        ),
        migrations.AddField(
            model_name='garment',
            name='put_away_on',
            field=models.DateField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name='garment',
            name='was_cut_on',
            field=models.DateField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name='look',
            name='garment',
            field=models.OneToOneField(null=True, on_delete=django.db.models.deletion.CASCADE, related_name='look', to='orders.garment'),
        ),
        migrations.AddField(
            model_name='order',
            name='brought_in',
            field=models.CharField(blank=True, max_length=120),
        ),
        migrations.AddField(
            model_name='order',
            name='leftovers',
            field=models.CharField(blank=True, max_length=200),
        ),
        migrations.AddField(
            model_name='order',
            name='leftovers_on',
            field=models.DateField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name='order',
            name='minutes',
            field=models.PositiveIntegerField(default=0),
        ),
        migrations.AddField(
            model_name='order',
            name='toile_wanted',
            field=models.BooleanField(default=False),
        ),
        migrations.AddField(
            model_name='orderphoto',
            name='marks',
            field=models.JSONField(blank=True, default=list),
        ),
        migrations.AlterField(
            model_name='look',
            name='order',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='looks', to='orders.order'),
        ),
        migrations.AlterField(
            model_name='order',
            name='stage',
            field=models.CharField(choices=[('asked', 'asked about'), ('booked', 'booked'), ('measured', 'measured'), ('cut', 'cut'), ('sewn', 'sewn'), ('brought_in', 'brought in'), ('in_work', 'in work'), ('ready', 'ready'), ('collected', 'collected'), ('called_off', 'called off')], default='asked', max_length=12),
        ),
        migrations.AddConstraint(
            model_name='order',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('is_open', True), ('stage__in', ['asked', 'booked', 'measured', 'cut', 'sewn', 'brought_in', 'in_work', 'ready'])), models.Q(('is_open', False), ('stage__in', ('collected', 'called_off'))), _connector='OR'), name='order_open_unless_over'),
        ),
        migrations.AddConstraint(
            model_name='order',
            constraint=models.CheckConstraint(condition=models.Q(('stage__in', ['asked', 'booked', 'measured', 'cut', 'sewn', 'brought_in', 'in_work', 'ready', 'collected', 'called_off'])), name='order_stage_known'),
        ),
        migrations.AddField(
            model_name='clothtest',
            name='by',
            field=models.ForeignKey(db_index=False, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='clothtest',
            name='changed_by',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.SET_NULL, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='clothtest',
            name='cloth',
            field=models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='test', to='orders.cloth'),
        ),
        migrations.AddField(
            model_name='complaint',
            name='changed_by',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.SET_NULL, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='complaint',
            name='order',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='complaints', to='orders.order'),
        ),
        migrations.AddField(
            model_name='mending',
            name='changed_by',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.SET_NULL, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='mending',
            name='done_by',
            field=models.ForeignKey(blank=True, db_index=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='mending',
            name='order',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='mendings', to='orders.order'),
        ),
        migrations.AddField(
            model_name='outwork',
            name='changed_by',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.SET_NULL, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='outwork',
            name='order',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='out_work', to='orders.order'),
        ),
        migrations.AddConstraint(
            model_name='repairprice',
            constraint=models.UniqueConstraint(fields=('what',), name='repair_price_once', violation_error_message='That stands on the list already.'),
        ),
        migrations.AddConstraint(
            model_name='repairprice',
            constraint=models.CheckConstraint(condition=models.Q(('price__gte', 0)), name='repair_price_not_negative'),
        ),
        migrations.AddConstraint(
            model_name='complaint',
            constraint=models.UniqueConstraint(condition=models.Q(('settled_on', None)), fields=('order',), name='one_complaint_open', violation_error_message='This order is back for a complaint already.'),
        ),
        migrations.AddConstraint(
            model_name='complaint',
            constraint=models.CheckConstraint(condition=models.Q(('price__gte', 0)), name='complaint_price_not_negative'),
        ),
        migrations.AddConstraint(
            model_name='mending',
            constraint=models.CheckConstraint(condition=models.Q(('price__gte', 0)), name='mending_price_not_negative'),
        ),
        migrations.AddIndex(
            model_name='outwork',
            index=models.Index(condition=models.Q(('back_on', None)), fields=['order', 'due_back'], name='out_work_not_back'),
        ),
        migrations.AddConstraint(
            model_name='outwork',
            constraint=models.CheckConstraint(condition=models.Q(('cost__isnull', True), ('cost__gte', 0), _connector='OR'), name='out_work_cost_not_negative'),
        ),
        migrations.AddConstraint(
            model_name='outwork',
            constraint=models.CheckConstraint(condition=models.Q(('due_back__gte', models.F('gone_on'))), name='out_work_back_after_gone'),
        ),
    ]
