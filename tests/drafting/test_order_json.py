"""The bytes of an order file: strict JSON in plain UTF-8, or one sentence."""

import pytest

from drafting.order_json import NotAnOrderFile, load_order_file


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        (b"", "empty"),
        (b"  \n", "empty"),
        (b"{", "Not JSON at line 1"),
        (b'{"order": "S-014",}', "Not JSON at line 1"),
        (b"{'order': 1}", "Not JSON"),
        (b"\xef\xbb\xbf{}", "byte-order mark"),
        ('{"a": 1}'.encode("utf-16"), "UTF-16"),
        (b'{"client":\n "In\xe9s"}', "Line 2 holds the byte 0xe9"),
        (b'{"bust": NaN}', "bust: I read NaN, which is not a number"),
        (b'{"cloth": {"width": Infinity}}', "cloth.width: I read Infinity, which"),
        (b'{"pieces": [{}, {"outline": [[0, 1], [2, -Infinity]]}]}', "pieces[2].outline[2][2]: I read -Infinity"),
        (b'{"a": NaN, "a": 1}', "Written twice in one object: “a”"),
        (b"NaN", "NaN is not a number"),
        (b'{"bust": 38, "bust": 39}', "Written twice in one object: “bust”"),
        (b'{"measures": {"hip": 1, "hip": 1}, "a": 1}', "“hip”"),
        (b"[" * 100_000, "too deep"),
        (b'{"a":' * 20_000 + b"1" + b"}" * 20_000, "too deep"),
        (b'{"bust": ' + b"9" * 5000 + b"}", "too many digits"),
        (b'{"note": "' + b"x" * 10_000_000 + b'"}', "10.0 MB"),
        (b"\x00\x01\x02", "Not JSON"),
    ],
)
def test_a_file_that_is_not_strict_json_is_refused_in_a_sentence(raw, said):
    with pytest.raises(NotAnOrderFile) as refused:
        load_order_file(raw)
    assert said in str(refused.value)
    assert "\n" not in str(refused.value)


def test_plain_json_is_read():
    assert load_order_file('{"client": "Inés", "bust": 38.5}'.encode()) == {"client": "Inés", "bust": 38.5}


def test_the_same_key_in_two_objects_is_no_repetition():
    assert load_order_file(b'[{"name": "a"}, {"name": "b"}]') == [{"name": "a"}, {"name": "b"}]
