"""Rows that stand as they were written: the database itself refuses to change them."""

from __future__ import annotations

from collections.abc import Mapping

from django.db import models
from django.db.backends.ddl_references import Statement, Table


#: PostgreSQL calls a function from its triggers; this one refuses as a broken constraint does.
REFUSING = (
    "CREATE OR REPLACE FUNCTION refuse_update() RETURNS trigger LANGUAGE plpgsql AS "
    "$$BEGIN RAISE integrity_constraint_violation USING MESSAGE = TG_ARGV[0]; END$$"
)


class Stands(models.BaseConstraint):
    """A named constraint that lets a table's rows be added but never changed.

    Made as a trigger, because no CHECK can see what a row was before. It is written like a partial
    unique index, after the table, so that a later migration which rebuilds the table keeps it.
    SQLite and PostgreSQL are spoken here; elsewhere the model's own refusal remains.
    """

    create = {
        "sqlite": "CREATE TRIGGER %(name)s BEFORE UPDATE ON %(table)s BEGIN SELECT RAISE(ABORT, '%(message)s'); END",
        "postgresql": REFUSING + "; CREATE TRIGGER %(name)s BEFORE UPDATE ON %(table)s FOR EACH ROW EXECUTE FUNCTION refuse_update('%(message)s')",
    }
    drop = {"sqlite": "DROP TRIGGER IF EXISTS %(name)s", "postgresql": "DROP TRIGGER IF EXISTS %(name)s ON %(table)s"}

    def _statement(self, templates: Mapping[str, str], model, schema_editor) -> Statement | None:
        if schema_editor.connection.vendor not in templates:
            return None
        return Statement(
            templates[schema_editor.connection.vendor],
            table=Table(model._meta.db_table, schema_editor.quote_name),
            name=schema_editor.quote_name(self.name),
            message=str(self.violation_error_message).replace("'", "''"),
        )

    def constraint_sql(self, model, schema_editor):
        trigger = self._statement(self.create, model, schema_editor)
        if trigger is not None:
            schema_editor.deferred_sql.append(trigger)
        return None

    def create_sql(self, model, schema_editor):
        return self._statement(self.create, model, schema_editor)

    def remove_sql(self, model, schema_editor):
        return self._statement(self.drop, model, schema_editor)

    def validate(self, model, instance, exclude=None, using="default"):
        """A new row may hold anything; that an old one is not saved again is the model's own refusal."""

    def __eq__(self, other):
        if isinstance(other, Stands):
            return self.deconstruct() == other.deconstruct()
        return NotImplemented

    __hash__ = models.BaseConstraint.__hash__
