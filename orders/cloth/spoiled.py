"""A spoiled piece that is cut again: kept as it was looked up, shown at the cutting table, its place on paper."""

from django.core import signing
from django.db import transaction
from django.template.loader import render_to_string

from drafting.pdf import press
from drafting.sheet_lays import lay_figures
from orders.models import Change, SpoiledPiece
from orders.stages import NotNow
from workshop.models import Workshop

SALT = "a spoiled piece"
KEPT = ("cloth", "piece", "which", "how", "lay", "to_buy_mm", "said")


def sealed(spoiled: SpoiledPiece) -> str:
    """What the page found, for its form to bring back: the very place that was read is kept, not one looked for anew."""
    return signing.dumps({name: getattr(spoiled, name) for name in KEPT}, salt=SALT, compress=True)


@transaction.atomic
def keep_spoiled(*, garment, found: str, by) -> SpoiledPiece:
    """Note a piece as spoiled and to be cut again. Pressed twice it is kept once, until it is cut again. Raises NotNow."""
    try:
        given = signing.loads(found, salt=SALT)
    except signing.BadSignature:
        raise NotNow("What was found for that piece did not come along. Look for its place again.") from None
    draft = garment.sheet_draft
    ticked = set(garment.cut_pieces.filter(draft=draft).values_list("piece", flat=True))
    same = {name: given[name] for name in ("cloth", "piece", "which")}
    for noted in garment.spoiled_pieces.that_count().filter(draft=draft, **same):
        if noted.key not in ticked:
            return noted
    spoiled = SpoiledPiece.objects.create(garment=garment, draft=draft, by=by, **given)
    tell(spoiled, by=by, after=f"to cut again, {spoiled.get_how_display()}")
    return spoiled


@transaction.atomic
def undo_spoiled(*, spoiled: SpoiledPiece, by) -> None:
    """It was not spoiled after all. A second press changes nothing; a piece that is cut again already was. Raises NotNow."""
    if hasattr(spoiled, "undone_by"):
        return
    if spoiled.garment.cut_pieces.filter(draft=spoiled.draft, piece=spoiled.key).exists():
        raise NotNow(f"The {spoiled.piece} is ticked as cut again. Take that tick back first.")
    SpoiledPiece.objects.create(
        garment=spoiled.garment, draft=spoiled.draft, cloth=spoiled.cloth, piece=spoiled.piece, which=spoiled.which, by=by, undoes=spoiled
    )
    tell(spoiled, by=by, before=f"to cut again, {spoiled.get_how_display()}", after="not spoiled after all")


def tell(spoiled: SpoiledPiece, *, by, after: str, before: str = "") -> None:
    thing = f"{spoiled.piece}, {spoiled.cloth}"[:90]
    Change.objects.create(order=spoiled.garment.order, by=by, thing=thing, field="spoiled", label="spoiled", before=before, after=after)


def place_paper(spoiled: SpoiledPiece) -> bytes:
    """A PDF with the drawing of what is left of the cloth and the piece on it, to scale. Raises CannotPrint."""
    workshop, draft = Workshop.current(), spoiled.draft
    figures = lay_figures(draft.order_file, draft.result, [spoiled.lay], draft.order_file["units"])
    shown = {"spoiled": spoiled, "order": spoiled.garment.order, "workshop": workshop, "lay": figures[0]}
    return press(render_to_string("paper/spoiled_piece.html", shown), paper=workshop.paper)
