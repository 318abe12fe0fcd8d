"""Needle and iron tried on a scrap: on the cloth's row, in the history, on the job sheet."""

import subprocess

from orders.models import ClothTest
from tests.orders.book import drafted_order
from tests.orders.pages import text, url

TRIED = {"needle": "70 microtex", "stitch": "2.2", "heat": "cool", "steam": "dry", "bleeds": "no", "note": ""}
SAID = "Needle 70 microtex, stitch 2.2. Cool iron, dry only. Does not bleed."


def test_the_apprentice_tries_a_scrap_and_the_sheet_tells_it(as_apprentice, hester):
    order = drafted_order(hester)
    cloth = order.cloths.get(name="outside cloth")
    as_apprentice.post(url("cloth-test", order.number, cloth.pk), TRIED)
    assert ClothTest.objects.get().by.username == "pim"
    assert SAID in text(as_apprentice.get(order.get_absolute_url()))
    printed = as_apprentice.get(url("sheet", order.number)).content
    words = " ".join(subprocess.run(["pdftotext", "-layout", "-", "-"], input=printed, capture_output=True, check=True).stdout.decode().split())
    assert "Needle 70 microtex, stitch 2.2. Cool iron, dry only." in words


def test_a_second_test_stands_and_the_history_has_the_first(as_owner, hester):
    order = drafted_order(hester)
    cloth = order.cloths.get(name="lining")
    address = url("cloth-test", order.number, cloth.pk)
    as_owner.post(address, TRIED)
    as_owner.post(address, TRIED | {"heat": "warm", "version": "1"})
    assert ClothTest.objects.get().heat == "warm"
    assert ("iron", "cool", "warm") in {(change.label, change.before, change.after) for change in order.changes.all()}
    beaten = as_owner.post(address, TRIED | {"needle": "90", "version": "1"})
    assert "90" in text(beaten) and ClothTest.objects.get().needle == "70 microtex"


def test_a_test_that_says_nothing_is_refused(as_owner, hester):
    order = drafted_order(hester)
    empty = as_owner.post(url("cloth-test", order.number, order.cloths.first().pk), dict.fromkeys(TRIED, ""))
    assert empty.status_code == 422 and "Nothing is written down yet" in text(empty)
