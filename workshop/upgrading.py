"""Bringing the database to what this version of the program expects, with a backup first."""

from collections.abc import Callable

from django.core.management import CommandError, call_command
from django.db import connection
from django.db.migrations.executor import MigrationExecutor
from django.utils import timezone

from workshop.backup import BackupFailed, back_up


def pending() -> list[str]:
    """The names of the changes to the database that have not been made yet, oldest first."""
    executor = MigrationExecutor(connection)
    plan = executor.migration_plan(executor.loader.graph.leaf_nodes())
    return [f"{migration.app_label}.{migration.name}" for migration, _ in plan]


def bring_up_to_date(say: Callable[[str], None]) -> None:
    """Make the changes that are pending; an existing database is copied and checked before the first of them."""
    changes = pending()
    if not changes:
        return
    if connection.introspection.table_names():
        try:
            kept = back_up("before-upgrade", timezone.localtime())
        except BackupFailed as problem:
            raise CommandError(str(problem)) from problem
        say(f"Backup before the upgrade: {kept}")
    call_command("migrate", interactive=False, verbosity=0)
