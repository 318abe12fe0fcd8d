from django.db import migrations

TRIGGER = """
CREATE TRIGGER drafting_keptdraft_never_changes BEFORE UPDATE ON drafting_keptdraft
BEGIN
    SELECT RAISE(ABORT, 'a kept draft is never changed');
END
"""


ON_POSTGRESQL = """
CREATE OR REPLACE FUNCTION refuse_update() RETURNS trigger LANGUAGE plpgsql AS
$$BEGIN RAISE integrity_constraint_violation USING MESSAGE = TG_ARGV[0]; END$$;
CREATE TRIGGER drafting_keptdraft_never_changes BEFORE UPDATE ON drafting_keptdraft
FOR EACH ROW EXECUTE FUNCTION refuse_update('a kept draft is never changed');
"""


def make(apps, schema_editor):
    schema_editor.execute(ON_POSTGRESQL if schema_editor.connection.vendor == "postgresql" else TRIGGER, None)


def drop(apps, schema_editor):
    on = " ON drafting_keptdraft" if schema_editor.connection.vendor == "postgresql" else ""
    schema_editor.execute(f"DROP TRIGGER IF EXISTS drafting_keptdraft_never_changes{on}", None)


class Migration(migrations.Migration):
    """Refuse every UPDATE of a kept draft, from whatever code it comes.

    SQLite drops a table's triggers when a later migration rebuilds the table: such a migration makes this one anew
    (a test looks for it after all migrations have run).
    """

    dependencies = [("drafting", "0001_initial")]

    operations = [
        migrations.RunPython(make, drop),
    ]
