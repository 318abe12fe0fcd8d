"""Drafts that were kept: what was asked, what came out, and a digest that shows neither has changed since."""

import hashlib
import json
from collections.abc import Mapping
from datetime import datetime
from typing import Any, Self

from django.conf import settings
from django.db import models, transaction
from django.urls import reverse


def digest_of(order_file: Mapping[str, Any], result: Mapping[str, Any]) -> str:
    """SHA-256 of both, written in one canonical way; raises ValueError for a figure that JSON can't hold."""
    canonical = json.dumps(
        {"order_file": order_file, "result": result},
        sort_keys=True,
        separators=(",", ":"),
        ensure_ascii=False,
        allow_nan=False,
    )
    return hashlib.sha256(canonical.encode("utf-8")).hexdigest()


class KeptDraftQuerySet(models.QuerySet["KeptDraft"]):
    def of_order(self, order_ref: str) -> Self:
        return self.filter(order_ref=order_ref).order_by("number")

    def without_drawing(self) -> Self:
        """For lists: the two large columns stay in the database."""
        return self.defer("order_file", "result")


class KeptDraft(models.Model):
    """One draft of an order, numbered from 1. It is never changed: the database refuses (migration 0002)."""

    order_ref = models.CharField(max_length=80)
    number = models.PositiveIntegerField()
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    order_file = models.JSONField()
    result = models.JSONField()
    digest = models.CharField(max_length=64)

    objects = KeptDraftQuerySet.as_manager()

    class Meta:
        ordering = ["order_ref", "number"]
        constraints = [
            models.UniqueConstraint(fields=["order_ref", "number"], name="one_draft_of_each_number_in_an_order"),
            models.CheckConstraint(condition=models.Q(number__gte=1), name="drafts_are_numbered_from_one"),
            models.CheckConstraint(condition=~models.Q(order_ref=""), name="a_draft_belongs_to_an_order"),
        ]

    def __str__(self) -> str:
        return f"{self.order_ref}, draft {self.number}"

    def get_absolute_url(self) -> str:
        return reverse("drafting:show", args=[self.pk])

    @classmethod
    def keep(cls, *, order_file: dict[str, Any], result: dict[str, Any], made_by: Any, at: datetime) -> Self:
        """Keep a draft under its order's next number; the same draft as the order's last is not kept twice."""
        order_ref, digest = order_file["order"], digest_of(order_file, result)
        with transaction.atomic():
            last = cls.objects.of_order(order_ref).without_drawing().last()
            if last is not None and last.digest == digest:
                return last
            return cls.objects.create(
                order_ref=order_ref,
                number=last.number + 1 if last else 1,
                made_at=at,
                made_by=made_by,
                order_file=order_file,
                result=result,
                digest=digest,
            )

    @property
    def for_cutting(self) -> bool:
        """False when any of the draft's own checks failed."""
        return all(check["pass"] for check in self.result["checks"])

    @property
    def is_unchanged(self) -> bool:
        """Whether what is stored is what was kept."""
        return digest_of(self.order_file, self.result) == self.digest
