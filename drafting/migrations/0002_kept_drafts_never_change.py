from django.db import migrations

TRIGGER = """
CREATE TRIGGER drafting_keptdraft_never_changes BEFORE UPDATE ON drafting_keptdraft
BEGIN
    SELECT RAISE(ABORT, 'a kept draft is never changed');
END
"""


class Migration(migrations.Migration):
    """Refuse every UPDATE of a kept draft, from whatever code it comes.

    SQLite drops a table's triggers when a later migration rebuilds the table: such a migration makes this one anew
    (a test looks for it after all migrations have run).
    """

    dependencies = [("drafting", "0001_initial")]

    operations = [
        migrations.RunSQL(TRIGGER, "DROP TRIGGER IF EXISTS drafting_keptdraft_never_changes"),
    ]
