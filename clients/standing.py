"""Rows that stand as they were written: the database itself refuses to change them."""

from __future__ import annotations

from django.db import models
from django.db.backends.ddl_references import Statement, Table


class Stands(models.BaseConstraint):
    """A named constraint that lets a table's rows be added but never changed.

    Made as a trigger, because no CHECK can see what a row was before. It is written like a partial
    unique index, after the table, so that a later migration which rebuilds the table keeps it.
    Only SQLite is spoken here, the workshop's database; elsewhere the model's own refusal remains.
    """

    create = (
        "CREATE TRIGGER %(name)s BEFORE UPDATE ON %(table)s BEGIN SELECT RAISE(ABORT, '%(message)s'); END"
    )

    def _statement(self, template: str, model, schema_editor) -> Statement | None:
        if schema_editor.connection.vendor != "sqlite":
            return None
        return Statement(
            template,
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
        return self._statement("DROP TRIGGER IF EXISTS %(name)s", model, schema_editor)

    def validate(self, model, instance, exclude=None, using="default"):
        """A new row may hold anything; that an old one is not saved again is the model's own refusal."""

    def __eq__(self, other):
        if isinstance(other, Stands):
            return self.deconstruct() == other.deconstruct()
        return NotImplemented

    __hash__ = models.BaseConstraint.__hash__
