"""Which order names can be a folder's name on any machine, and stay inside the folder they are put in."""

from drafting.order_section import has_bad_character

LONGEST = 80
_NOT_IN_A_NAME = frozenset('/\\:*?"<>|')
# Unicode's bidirectional controls, UAX #9, section 2.
_TURNS_WRITING = frozenset(map(chr, [0x61C, 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A)]))
_TAKEN_BY_WINDOWS = frozenset(
    ["con", "prn", "aux", "nul", *(f"com{n}" for n in range(1, 10)), *(f"lpt{n}" for n in range(1, 10))]
)


def why_not_a_folder(name: str) -> str | None:
    """What is wrong with `name` as the folder of an order, and what to do; None where nothing is."""
    if not name.strip():
        return "an order needs a name, such as S-014."
    if len(name) > LONGEST or len(name.encode("utf-8", "replace")) > 2 * LONGEST:
        return f"{len(name)} characters long; at most {LONGEST} fit."
    if has_bad_character(name):
        return "it holds a character that cannot be printed. Use letters, figures, spaces and - _ . only."
    if _TURNS_WRITING & set(name):
        return "it holds a mark that turns the way of writing, so it would not read as it is. Write it without."
    if name != name.strip():
        return "it begins or ends with a space. Write it without."
    if name.startswith(".") or name.endswith("."):
        return "a folder's name can't begin or end with a full stop. Write it without."
    if name[0] in "-~":
        return f"a folder's name that begins with {name[0]} is taken for something else. Begin with a letter or a figure."
    forbidden = sorted(_NOT_IN_A_NAME & set(name))
    if forbidden:
        return f"a folder's name can't hold {' '.join(forbidden)}. Use letters, figures, spaces and - _ . only."
    if name.partition(".")[0].rstrip().lower() in _TAKEN_BY_WINDOWS:
        return "some machines keep that name for themselves. Put a letter before it."
    return None
