"""Marks on the photograph of a fitting: data beside it; the photograph itself stays as it was taken."""

import json

import pytest
from django.urls import reverse
from hypothesis import given
from hypothesis import strategies as st

from clients import marks
from clients.fit_notes import FitPhoto
from tests.clients.book import fit_note, jpeg, make_client

HIGH = 1333  # of a photograph 300 wide and 400 high, in thousandths of its width


@pytest.fixture
def photo(salt_lane, dunya):
    return FitPhoto.objects.get(note=fit_note(make_client(), dunya, photo=jpeg()))


@pytest.fixture
def url(photo):
    return reverse("clients:fit-marks", args=[photo.note_id])


def kept(photo) -> list:
    photo.refresh_from_db()
    return photo.marks


def test_a_ring_is_put_on_a_square_without_a_script_and_the_photograph_stays_as_it_was(as_seamstress, photo, url):
    before = bytes(photo.jpeg)
    page = as_seamstress.post(url, {"act": "place", "what": "small", "column": "D", "row": "4"}, follow=True).content.decode()
    assert kept(photo) == [{"kind": "ring", "at": [[350, 467], [395, 467]]}]  # the middles of D and of 4: 3.5 tenths each
    assert '<circle class="mark" cx="350" cy="467" r="45"/>' in page
    assert "with a ring at D4" in page
    assert bytes(photo.jpeg) == before


def test_what_is_drawn_and_what_is_put_are_kept_together_in_their_order(as_seamstress, photo, url):
    line = {"kind": "line", "at": [[10, 20], [30, 40], [50, 60]]}
    as_seamstress.post(url, {"act": "place", "drawn": json.dumps([line]), "what": "above", "column": "B", "row": "10"})
    assert kept(photo) == [line, {"kind": "arrow", "at": [[150, 1096], [150, 1266]]}]
    page = as_seamstress.get(url).content.decode()
    assert 'd="M10 20L30 40L50 60"' in page
    assert "a line to A1, an arrow to B10" in page


def test_a_form_sent_twice_marks_once_and_takes_out_once(as_seamstress, photo, url):
    drawn = json.dumps([{"kind": "ring", "at": [[500, 500], [600, 500]]}])
    for _ in range(2):
        as_seamstress.post(url, {"act": "keep", "drawn": drawn})
    assert len(kept(photo)) == 1
    as_seamstress.post(url, {"act": "place", "what": "large", "column": "A", "row": "1"})
    for _ in range(2):
        as_seamstress.post(url, {"act": "undo", "count": "2"})
    assert [each["at"][0] for each in kept(photo)] == [[500, 500]]


def test_a_finger_that_leaves_the_photograph_marks_to_its_edge():
    assert marks.read('[{"kind": "arrow", "at": [[-50, 20], [1200, 5000]]}]', HIGH) == [{"kind": "arrow", "at": [[0, 20], [1000, HIGH]]}]


@pytest.mark.parametrize(
    "drawn",
    ["{", "7", '["ring"]', '[{"kind": "star", "at": [[1, 2], [3, 4]]}]', '[{"kind": "ring", "at": [[1, 2]]}]', '[{"kind": "line", "at": [[1, NaN], [3, 4]]}]',
     '[{"kind": "ring", "at": [[1, 2], [true, 4]]}]', "[" * 9000],
)  # fmt: skip
def test_what_cannot_be_read_is_refused_and_nothing_is_kept(as_seamstress, photo, url, drawn):
    answer = as_seamstress.post(url, {"act": "keep", "drawn": drawn})
    assert answer.status_code == 422
    assert "Draw it once more." in answer.content.decode()
    assert kept(photo) == []


def test_a_square_that_is_not_on_the_form_is_refused(as_seamstress, photo, url):
    for wrong in ({"what": "star", "column": "A", "row": "1"}, {"what": "small", "column": "K", "row": "1"}, {"what": "small", "column": "A", "row": "11"}):
        answer = as_seamstress.post(url, {"act": "place", **wrong})
        assert (answer.status_code, kept(photo)) == (422, [])
        assert "Choose what to put" in answer.content.decode()


def test_a_photograph_takes_forty_marks(as_seamstress, photo, url):
    many = [{"kind": "ring", "at": [[n, n], [n + 20, n]]} for n in range(41)]
    assert as_seamstress.post(url, {"act": "keep", "drawn": json.dumps(many[:40])}).status_code == 302
    answer = as_seamstress.post(url, {"act": "keep", "drawn": json.dumps(many[40:])})
    assert answer.status_code == 422
    assert "takes 40 marks" in answer.content.decode()
    assert len(kept(photo)) == 40


def test_the_clients_page_leads_to_the_photograph_and_says_that_it_is_marked(as_seamstress, photo, url):
    page = as_seamstress.get(photo.note.client.get_absolute_url()).content.decode()
    assert f'<a href="{url}">Photograph</a>' in page
    as_seamstress.post(url, {"act": "place", "what": "small", "column": "D", "row": "4"})
    assert f'<a href="{url}">Photograph, marked</a>' in as_seamstress.get(photo.note.client.get_absolute_url()).content.decode()


POINTS = st.lists(st.tuples(st.integers(0, 1000), st.integers(0, HIGH)).map(list), min_size=2, max_size=60)


@given(at=POINTS, kind=st.sampled_from([marks.RING, marks.ARROW, marks.LINE]))
def test_whatever_is_kept_can_be_drawn_and_said(at, kind):
    mark = {"kind": kind, "at": at if kind == marks.LINE else at[:2]}
    assert marks.read(json.dumps([mark]), HIGH) == [mark]
    drawn = marks.drawn(mark)
    assert drawn.r >= 8 if kind == marks.RING else drawn.d.startswith("M")
    assert marks.said(mark, HIGH)[-1].isdigit()
