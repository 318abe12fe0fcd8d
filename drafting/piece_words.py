"""How a piece is cut, in the trade's words, and which group of the Draft page it belongs to."""

from typing import Any

LAYER_GROUPS = {"lining": "lining", "stay": "stay", "wadding": "stay"}
OF_SKIRT = ("skirt", "godet", "waistband")


def group_of(piece: dict[str, Any]) -> set[str]:
    """The groups of the Draft page that show the piece: by what it is cut from."""
    roles = {cut["role"] for cut in piece["cut"]}
    groups = {LAYER_GROUPS[role] for role in roles & LAYER_GROUPS.keys()}
    if piece["of"] is None and (not roles or roles - LAYER_GROUPS.keys()):
        groups.add("trousers" if piece.get("group") == "trousers" else "skirt" if "skirt" in roles or piece["name"].removeprefix("right ").removeprefix("left ").startswith(OF_SKIRT) else "top")
    return groups or {"top"}


def count_words(count: int, *, on_fold: bool) -> str:
    """“1 on the fold”, “1 pair, mirrored”, “3 pieces”."""
    if on_fold:
        return f"{count} on the fold"
    pairs, odd = divmod(count, 2)
    if odd:
        return f"{count} piece{'s' if count > 1 else ''}"
    return f"{pairs} pair{'s' if pairs > 1 else ''}, mirrored"


def cut_words(piece: dict[str, Any]) -> str:
    """One sentence: how many of the outside cloth, and which layers are cut alike."""
    outside = [cut for cut in piece["cut"] if cut["role"] not in LAYER_GROUPS]
    layers = [cut["role"] for cut in piece["cut"] if cut["role"] in LAYER_GROUPS]
    first = (outside or piece["cut"])[:1]
    if not first:
        return ""
    words = count_words(first[0]["count"], on_fold=piece["on_fold"])
    if piece["side"] != "both":
        words = f"{words}, worn {piece['side']}"
    also = layers if outside else layers[1:]
    if not outside:
        words = f"{words}, {layers[0]}"
    return f"{words}. {', '.join(also).capitalize()} too" if also else words
