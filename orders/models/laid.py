"""Lays that were found, kept beside the draft whose pieces they lay: a draft itself is never changed."""

import hashlib
import json
from collections.abc import Mapping
from typing import Any

from django.db import models

LAID_BY = (
    "name", "width", "selvedge", "layout", "one_way", "repeat", "repeat_across", "match", "motifs", "first_motif", "flaws",
    "shrink", "seam",
)  # fmt: skip
"""What of a cloth decides how it is laid. What is on hand does not: it is only compared with what the lay needs."""


def signature_of(entry: Mapping[str, Any]) -> str:
    """Of a cloth as an order file has it: the same for cloths that are laid the same way."""
    decides = {key: entry[key] for key in LAID_BY if entry.get(key)}
    return hashlib.sha256(json.dumps(decides, sort_keys=True, ensure_ascii=False).encode()).hexdigest()[:32]


class KeptLay(models.Model):
    """One cloth of a draft as it was laid: an entry of the result file's `lays[]`, or why it can't be laid."""

    draft = models.ForeignKey("drafting.KeptDraft", on_delete=models.CASCADE, related_name="kept_lays")
    signature = models.CharField(max_length=32)
    lay = models.JSONField(null=True)
    refused = models.CharField(max_length=400, blank=True)
    made_at = models.DateTimeField()
    # How long was looked for it in all, and how long the lay was that was found first.
    seconds = models.FloatField(default=0)
    first_length = models.FloatField(default=0)

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.UniqueConstraint(fields=["draft", "signature"], name="one_lay_of_a_cloth_in_a_draft"),
            models.CheckConstraint(
                condition=models.Q(lay__isnull=False, refused="") | models.Q(lay__isnull=True) & ~models.Q(refused=""),
                name="a_lay_or_why_there_is_none",
            ),
        ]

    def __str__(self):
        return f"{self.lay['cloth'] if self.lay else 'a cloth'} of {self.draft}"
