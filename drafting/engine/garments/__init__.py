"""Whole garments: blocks put together, with their seams, girths, bones, checks and story."""

from __future__ import annotations

from ..draft import Draft
from ..errors import UnknownChoice
from ..making import with_making
from ..spec import GarmentSpec, Kind
from .blouse_kind import BLOUSE, draft_blouse
from .corset_kind import CORSET, draft_corset
from .defaults import in_words
from .dress_kind import BODICE, FITTED_DRESS, draft_dress
from .fitted import draft_fitted
from .gown import BUSTIER_GOWN, draft_gown
from .skirt_kind import SKIRT, draft_skirt
from .trouser_kind import TROUSERS, draft_trousers

KINDS: dict[str, Kind] = {kind.name: kind for kind in (BUSTIER_GOWN, FITTED_DRESS, BODICE, BLOUSE, CORSET, SKIRT, TROUSERS)}
"""Every garment that can be drafted, by its name in order files."""

_DRAFTERS = {BUSTIER_GOWN.name: draft_gown, FITTED_DRESS.name: draft_dress, BODICE.name: draft_dress, BLOUSE.name: draft_blouse,
             CORSET.name: draft_corset, SKIRT.name: draft_skirt,
             TROUSERS.name: draft_trousers}


def draft(spec: GarmentSpec) -> Draft:
    """Draft the garment that `spec` asks for; raises DraftingError where it can't be drawn right."""
    if spec.kind not in _DRAFTERS:
        raise UnknownChoice("garment.kind", spec.kind, tuple(_DRAFTERS))
    try:
        return with_making(draft_fitted(spec, KINDS[spec.kind], _DRAFTERS[spec.kind]))
    except UnknownChoice as refused:
        raise in_words(refused, KINDS[spec.kind]) from refused
