"""A blouse from the order to its draft: what is asked of the client, what the pages show."""

import pytest

from drafting.engine.garments import KINDS
from orders.demo.cast import CLIENTS
from orders.garment.making_draft import make_draft
from orders.garment.options import defaults
from orders.measuring import wanted_by
from tests.clients.book import make_client, measured
from tests.orders.book import garment_of, make_order

ARM = {"upper_arm": "11 1/2", "elbow": "10", "wrist": "6 1/4", "sleeve_length": "23", "shoulder_to_elbow": "13 1/2"}


def ordered(by, **options):
    client = make_client()
    measured(client, by, **CLIENTS["ines"].written_before() | ARM)
    return make_order(by, client, kind="blouse", options=defaults(KINDS["blouse"]) | options)


def asked(order) -> tuple[set[str], set[str]]:
    (wanted,) = wanted_by(order.client)
    return set(wanted.keys), set(wanted.optional)


def test_without_a_sleeve_no_arm_is_measured(hester):
    keys, _ = asked(ordered(hester))
    assert "hip" in keys
    assert not keys & ARM.keys()


@pytest.mark.parametrize(("sleeve", "arm"), [("fitted", set(ARM)), ("short", {"upper_arm"}), ("cap", set())])
def test_a_sleeve_asks_for_its_part_of_the_arm_and_can_t_do_without(hester, sleeve, arm):
    keys, optional = asked(ordered(hester, **{"sleeve.kind": sleeve}))
    assert keys & ARM.keys() == arm
    assert not optional & ARM.keys()


def test_a_blouse_is_drafted_from_the_book_and_shown(as_owner, dunya):
    order = ordered(dunya, collar="stand", facing="separate", length="10", **{"sleeve.kind": "fitted"})
    kept = make_draft(garment=garment_of(order), by=dunya)
    assert kept.result["not_for_cutting"] is False
    assert kept.result["garment"]["kind"] == "blouse"
    page = as_owner.get(kept.get_absolute_url()).content.decode()
    for words in ("Collar stand", "Front facing", "Cap over the front armhole", "Cap over the back armhole", "at the notch"):
        assert words in page


def test_the_garment_s_form_offers_collar_facing_and_length(as_owner, dunya):
    garment = garment_of(ordered(dunya))
    page = as_owner.get(garment.order.get_absolute_url()).content.decode()
    for words in ("Collar", "Front facing", "Length from the waist"):
        assert words in page
