"""A card that goes with the garment: how to wash, press and keep it, from its cloths, their tests and how it is made.

Common practice, no source. What no scrap was tested for is asked of the workshop, not guessed.
"""

from dataclasses import dataclass

from django.template.loader import render_to_string

from drafting.pdf import PAPERS, press_sized
from orders.models import Cloth, ClothTest, Garment, Order
from workshop.models import Workshop

IRON = {
    ClothTest.Heat.COOL: "Iron cool",
    ClothTest.Heat.WARM: "Iron warm",
    ClothTest.Heat.HOT: "Iron hot",
    ClothTest.Heat.NONE: "Don’t iron: hang it in a steamy room",
}
STEAM = {ClothTest.Steam.STEAM: "with steam", ClothTest.Steam.DRY: "without steam", ClothTest.Steam.THROUGH: "through a damp cloth"}
INSIDE = {"lining", "stay", "wadding"}


@dataclass(frozen=True)
class CareCloth:
    name: str
    uses: str
    lines: list[str]


def care_of(cloth: Cloth) -> CareCloth:
    test = getattr(cloth, "test", None)
    if test is None:
        return CareCloth(cloth.name, cloth.uses, ["Not tested by us: try water and iron on a seam allowance inside first."])
    lines = []
    if test.heat:
        how = "" if test.heat == ClothTest.Heat.NONE else f" {STEAM.get(test.steam, '')}"
        lines.append(f"{IRON[test.heat]}{how}".rstrip() + ".")
    if test.bleeds == ClothTest.Bleeds.YES:
        lines.append("The colour runs: wash nothing else with it, keep it from wet light cloth.")
    if cloth.shrink_percent:
        lines.append("It shrinks when wet: don’t wash it hotter than lukewarm.")
    return CareCloth(cloth.name, cloth.uses, lines or ["Nothing is noted of water and iron: ask us."])


def care_of_making(garments: list[Garment], cloths: list[Cloth], out: list[str]) -> list[str]:
    """What follows from how it is made: bones, what is fused, what others worked on it, train and lacing."""
    results = [garment.sheet_draft.result for garment in garments if garment.sheet_draft]
    found = []
    if any(result.get("bones") for result in results):
        found.append("It is boned: don’t wring or fold it across the bones, don’t put it in a machine. Dry it hanging.")
    if any("stay" in cloth.used_for for cloth in cloths):
        found.append("Parts of it are stayed: press, don’t slide the iron, and don’t soak it.")
    if any("wadding" in cloth.used_for for cloth in cloths):
        found.append("There is wadding in it: don’t press it flat.")
    if out:
        found.append(f"Go round what was worked on it ({', '.join(out)}): iron from the inside, on a towel.")
    return [*found, "Hang it by its tapes or a padded hanger, in a cotton bag, out of the sun.", "Spots: dab with a clean white cloth, don’t rub."]


def care_card(order: Order) -> bytes:
    """A PDF of one page. Raises CannotPrint."""
    workshop = Workshop.current()
    cloths = list(order.cloths.select_related("test"))
    garments = list(order.garments.select_related("draft", "cut_draft"))
    told = [care_of(cloth) for cloth in cloths if not set(cloth.used_for) <= INSIDE - {"lining"}]
    making = care_of_making(garments, cloths, list(order.out_work.values_list("what", flat=True)))
    shown = {"order": order, "cloths": told, "making": making, "workshop": workshop}
    return press_sized(render_to_string("paper/care_card.html", shown), size=PAPERS[workshop.paper], style="ticket.css")
