"""Which choices say something: a length without its part, or a choice of another kind of skirt, does not."""

from drafting.engine.garments import KINDS
from orders.garment.options import in_words, nested

SKIRT, TROUSERS = KINDS["skirt"], KINDS["trousers"]


def test_gores_and_hem_belong_to_gored_and_mermaid_skirts_alike():
    for kind in ("gored", "mermaid"):
        made = nested(SKIRT, {"skirt.kind": kind, "skirt.gores": "8", "skirt.sweep": "90", "skirt.fraction": "0.5"})
        assert made["skirt"]["gores"] == 8
        assert made["skirt"]["sweep"] == "90"
        assert "fraction" not in made["skirt"]


def test_a_circle_takes_its_panels_and_no_gores():
    made = nested(SKIRT, {"skirt.kind": "circle", "skirt.fraction": "1.0", "skirt.panels": "8", "skirt.gores": "6", "skirt.sweep": "90"})
    assert made["skirt"]["panels"] == 8
    assert made["skirt"].keys() & {"gores", "sweep", "godets"} == set()


def test_godets_are_written_as_yes_or_no_for_a_mermaid_only():
    assert nested(SKIRT, {"skirt.kind": "mermaid", "skirt.godets": "yes"})["skirt"]["godets"] is True
    assert "godets" not in nested(SKIRT, {"skirt.kind": "gored", "skirt.godets": "yes"})["skirt"]


def test_trousers_need_no_kind_for_their_lengths_to_count():
    assert nested(TROUSERS, {"trousers.hem": "18"})["trousers"] == {"hem": "18"}
    assert ("Hem of a leg, all round", "18") in in_words(TROUSERS, {"trousers.hem": "18"})
