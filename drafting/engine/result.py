"""A draft as the result file has it: plain dicts and lists, millimetres, rings unclosed."""

from __future__ import annotations

from collections.abc import Callable

from .act import Act
from .draft import Draft
from .piece import Cut, Piece
from .point import Point
from .report import Girth

Fmt = Callable[[float], str]

CAUTIONS = (
    "The draft is a starting point: make a toile for a first order or a close fit.",
    "Keep pins, needles, shears and irons away from children. No machine stitching over pins. Unplug the iron.",
    "Local rules for workshop safety and electrical equipment come first.",
)
BONE_CAUTION = "Bones: tip and cap every cut end. Wear eye protection when cutting steel bones. No machine stitching over bones."


def as_result(draft: Draft, *, order: str, plain: Fmt, with_unit: Fmt) -> dict:
    """Return the result file's dict for `draft`.

    `plain` writes a length for a step ("3½"), `with_unit` for a warning ("3½ in"). `lays` is left empty for whoever
    lays the pieces.
    """
    pieces = {piece.name: piece for piece in draft.pieces}
    return {
        "order": order,
        "engine": "1",
        "units": "mm",
        "garment": {"kind": draft.spec.kind, "title": draft.title, "summary": draft.summary},
        "measures": _measures(draft),
        "levels": draft.levels.as_dict(),
        "side_levels": draft.side_levels.as_dict(),
        "girths": [_girth(girth) for girth in draft.girths],
        "pieces": [_piece(piece, with_unit) for piece in draft.pieces],
        "seams": [_seam(seam, pieces) for seam in draft.seams],
        "bones": [
            {"place": b.place, "piece": b.piece, "pieces": list(b.pieces), "from": _xy(b.start), "to": _xy(b.end),
             "channel": b.channel, "bone": b.bone, "casing": b.casing, "count": b.count} for b in draft.bones
        ],
        "lays": [],
        "materials": [{"item": m.item, "amount": m.amount, "unit": m.unit, "count": m.count} for m in draft.materials],
        "steps": _steps(draft, plain),
        "making": [_act(number, act, with_unit) for number, act in enumerate(draft.making, start=1)],
        "rules": dict(draft.rules),
        "warnings": [{"code": w.code, "text": w.written(with_unit)} for w in draft.warnings],
        "checks": [{"check": c.name, "pass": c.passed, "figure": c.figure, "limit": c.limit, "unit": c.unit}
                   for c in draft.checks],
        "figures": [{"name": f.name, "value": f.value, "unit": f.unit} for f in draft.figures],
        "laid_over": [{"name": o.name, "armhole": _line(o.armhole), "cap": _line(o.cap), "parts": _line(o.parts), "apart": o.apart}
                      for o in draft.laid_over],
        "cautions": [*CAUTIONS[:1], *([BONE_CAUTION] if draft.bones else []), *CAUTIONS[1:]],
        "not_for_cutting": bool(draft.failed),
        "toile_only": draft.toile_only,
        "fit_notes": [{"place": n.place, "side": n.side, "amount": n.amount, "drawn": n in draft.drawn_notes}
                      for n in draft.spec.fit_notes],
    }


def _measures(draft: Draft) -> dict[str, dict]:
    """Return the body's measures, and the skirt's length as it was drafted."""
    measures = dict(draft.body.measures)
    options = draft.spec.options
    if options.get("skirt.kind", "none") != "none":
        measures["skirt_length"] = float(options["skirt.length"])
    return {key: {"value": value, "estimated": key in draft.body.estimated} for key, value in measures.items()}


def _xy(point: Point) -> list[float]:
    return [point.x, point.y]


def _line(points) -> list[list[float]]:
    return [[point.x, point.y] for point in points]


def _girth(girth: Girth) -> dict:
    across: list[dict] = [{"piece": s.piece, "line": _line(s.line), "by": s.by, "count": s.count} for s in girth.stretches]
    if girth.gap:
        across.append({"gap": girth.gap})
    return {"level": girth.level, "body": girth.body, "ease": girth.ease, "wadding": girth.wadding,
            "finished": girth.finished, "across": across}


def _cut(piece: Piece, cut: Cut) -> dict:
    given = {"cloth": cut.cloth, "role": cut.role, "count": cut.count}
    if cut.plain and piece.has_plain_line:
        return {**given, "cut_line": _line(piece.plain_cut_line), "allowance": piece.seam_allowance}
    return given


def _piece(piece: Piece, with_unit: Fmt) -> dict:
    return {
        "name": piece.name, "title": piece.title, "number": piece.number, "of": piece.of, "group": piece.group,
        "on_fold": piece.on_fold, "side": piece.side,
        "cut": [_cut(piece, c) for c in piece.cuts],
        "net": _line(piece.net),
        "cut_line": _line(piece.cut_line),
        "edges": [{"name": e.name, "line": _line(e.path.polyline()), "allowance": e.allowance} for e in piece.edges],
        "grain": _line(piece.grain),
        "notches": [
            {"edge": n.edge, "at": n.at, "mark": n.mark,
             "mate": {"piece": n.mate[0], "edge": n.mate[1], "at": n.mate[2]} if n.mate else None} for n in piece.notches
        ],
        "darts": [{"point": _xy(d.point), "legs": [_line(leg.polyline()) for leg in d.legs]} for d in piece.darts],
        "dims": [{"from": _xy(d.start), "to": _xy(d.end), "value": d.value} for d in piece.dimensions],
        "marks": [{"kind": m.kind, "line": _line((m.start, m.end))} for m in piece.marks],
        "let_out": [_line(line) for line in piece.let_outs] if piece.seam_allowance else [],
        "remarks": list(piece.remarks),
    }


def _seam(seam, pieces: dict[str, Piece]) -> dict:
    length_a, length_b = seam.lengths(pieces)
    return {"name": seam.name, "layer": seam.layer, "a": [{"piece": p, "edge": e} for p, e in seam.a],
            "b": [{"piece": p, "edge": e} for p, e in seam.b], "length_a": length_a, "length_b": length_b, "ease": seam.ease}


def _act(number: int, act: Act, with_unit: Fmt) -> dict:
    text, why = act.written(with_unit)
    return {"number": number, "key": act.key, "does": act.does, "text": text, "why": why, "seams": list(act.seams),
            "pieces": list(act.pieces)}


def _steps(draft: Draft, plain: Fmt) -> list[dict]:
    """The steps piece by piece, as they are chalked and read, numbered in that order."""
    steps, first = [], {}
    for step in draft.steps:
        first.setdefault(step.piece, len(first))
    for number, step in enumerate(sorted(draft.steps, key=lambda step: first[step.piece]), start=1):
        text, why = step.written(plain)
        steps.append({"piece": step.piece, "number": number, "text": text, "marks": list(step.marks),
                      "points": _line(step.points), "why": why})
    return steps
