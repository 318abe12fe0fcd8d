import pytest

from workshop.few_kept import FewKept


def test_a_thing_is_made_once_and_the_one_asked_for_longest_ago_goes_first():
    made, kept = [], FewKept(2)
    for key in ("a", "b", "a", "c", "a", "b"):
        assert kept(key, lambda key=key: made.append(key) or key.upper()) == key.upper()
    assert made == ["a", "b", "c", "b"]


def test_what_could_not_be_made_is_tried_anew():
    kept = FewKept(2)
    with pytest.raises(ZeroDivisionError):
        kept("a", lambda: 1 / 0)
    assert kept("a", lambda: "made") == "made"


def test_what_is_forgotten_is_made_anew():
    kept, made = FewKept(2), []
    for _ in range(2):
        kept("a", lambda: made.append("a") or "a")
    kept.forget()
    assert kept("a", lambda: made.append("again") or "again") == "again"
    assert made == ["a", "again"]
