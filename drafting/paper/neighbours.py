"""Where a piece meets its neighbours: the words along its edges, and the letters that mated notches share."""

from __future__ import annotations

from collections.abc import Mapping

from drafting.linework import clean


def edge_words(result: Mapping) -> dict[tuple[str, str], tuple[str, ...]]:
    """Return (piece, edge) → “under-bust, to Band” and shorter wordings after it, for edges that have less room.

    An edge that is sewn to nothing has its name alone.
    """
    pieces = {piece["name"]: piece for piece in result["pieces"]}
    layers = {piece["name"] for piece in result["pieces"] if piece["of"]}
    met: dict[tuple[str, str], list[str]] = {}
    for seam in result["seams"]:
        for side, others in ((seam["a"], seam["b"]), (seam["b"], seam["a"])):
            for place in side:
                names = [other["piece"] for other in others if other["piece"] != place["piece"]]
                met.setdefault((place["piece"], place["edge"]), []).extend(names)
    words = {}
    for piece in result["pieces"]:
        for edge in piece["edges"]:
            name = edge["name"].rstrip(" 0123456789")
            if name == "fold" or name.startswith("dart"):
                continue
            known = [other for other in dict.fromkeys(met.get((piece["name"], edge["name"]), ())) if other in pieces]
            same = [other for other in known if (other in layers) == (piece["name"] in layers)]
            layer = "" if same else "outside " if piece["name"] in layers else "lining "
            words[piece["name"], edge["name"]] = _wordings(name, [pieces[other] for other in same or known], layer)
    return words


def _wordings(name: str, others: list[Mapping], layer: str) -> tuple[str, ...]:
    """Return the fullest first: titles, then numbers with `layer` before them, these without the edge's name, its name."""
    if not others:
        return (name,)
    titles = f"{name}, to {_listed([clean(other.get('title') or other['name']) for other in others])}"
    if not all(other.get("number") for other in others):
        return (titles, name)
    numbers = f"to {layer}{_listed([str(number) for number in sorted(other['number'] for other in others)])}"
    return (titles, f"{name}, {numbers}", numbers, name)


def _listed(words: list[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def notch_letters(result: Mapping) -> dict[tuple[str, str, float], str]:
    """Return (piece, edge, at) → the letter that the notch there shares with the notch on its mate."""
    spots: dict[tuple[str, str, float], tuple[str, str, float]] = {}

    def root(spot: tuple[str, str, float]) -> tuple[str, str, float]:
        while spots.setdefault(spot, spot) != spot:
            spot = spots[spot]
        return spot

    for piece in result["pieces"]:
        for notch in piece.get("notches", ()):
            mate = notch.get("mate")
            if mate:
                here = (piece["name"], notch["edge"], round(notch["at"], 1))
                spots[root(here)] = root((mate["piece"], mate["edge"], round(mate["at"], 1)))
    letters: dict[tuple[str, str, float], str] = {}
    return {spot: letters.setdefault(root(spot), _letter(len(letters))) for spot in list(spots)}


def _letter(index: int) -> str:
    """Return a to z, then a2, b2 …: small, since capitals name the pages"""
    turn, place = divmod(index, 26)
    return chr(97 + place) + (str(turn + 1) if turn else "")
