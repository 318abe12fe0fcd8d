"""Every garment, neckline, sleeve, yoke and skirt on published and made-up bodies, read back from the result files alone.

Girths of the bodies: ASTM D5585-11e1, Misses (see bodies.py). Arm measures: a quarter of the bust and 2¼ in, wrist 6¼, common
practice, no source.
"""

import itertools

import pytest

from tests.outside.bodies import astm_body, order_file
from tests.outside.contract import breaches
from tests.outside.faults import all_faults
from tests.outside.running import jobsheet
from tests.outside.sample import ENDS, SAMPLE

SIZES = ("00", "4", "10", "16", "20")
BODIES = list(itertools.product(SIZES, ("curvy", "straight")))
SKIRTS = (
    {"kind": "straight", "length": 26}, {"kind": "a-line", "length": 34}, {"kind": "circle", "fraction": 0.5, "length": 26},
    {"kind": "gathered", "fullness": 2, "length": 28}, {"kind": "gored", "gores": 6, "length": 30}, {"kind": "mermaid", "gores": 8, "length": 40},
    {"kind": "gored", "gores": 4, "length": 32, "length_back": 36},
)  # fmt: skip
SLEEVES = (None, *({"kind": kind} for kind in ("set-in", "short", "puff", "bell", "flutter", "fitted", "cap")), {"kind": "puff", "length": 17})
DARTS = ("side", "shoulder", "princess-shoulder", "princess-armhole")


def with_arms(body: dict) -> dict:
    return {**body, "upper_arm": body["bust"] / 4 + 2.25, "wrist": 6.25, "elbow": body["bust"] / 4 + 1, "sleeve_length": 23,
            "shoulder_to_elbow": 13.5}


def plain(choices: dict) -> dict:
    """Drop what a bustier has and this garment has not."""
    dropped = {"blouse": ("top_edge", "yoke", "skirt", "waist"), "corset": ("yoke", "skirt", "waist", "sleeve"),
               "bodice": ("top_edge", "yoke", "skirt")}.get(choices["kind"], ("top_edge", "yoke"))
    kept = {key: value for key, value in choices.items() if key not in dropped}
    return kept if choices["kind"] != "skirt" else {k: v for k, v in kept.items() if k in ("kind", "skirt", "closure", "lined")}


def orders() -> dict[str, dict]:
    made = {}
    turns = itertools.count()
    for size, figure in BODIES:
        body = with_arms(astm_body(size, figure))
        for yoke, edge in (("full", "sweetheart"), ("neck-frame", "straight")):
            made[f"yoke-{yoke}-{size}-{figure}"] = {"yoke": yoke, "top_edge": edge, "skirt": SKIRTS[next(turns) % len(SKIRTS)]}, body
        for darts in DARTS:
            n = next(turns)
            made[f"dress-{darts}-{size}-{figure}"] = {
                "kind": "fitted-dress", "fit": "standard", "neckline": ("round", "v", "square", "boat")[n % 4], "darts": darts,
                "sleeve": SLEEVES[n % 9], "skirt": SKIRTS[n % len(SKIRTS)], "lined": n % 2 == 0,
            }, body  # fmt: skip
        for collar, facing in itertools.product(("none", "stand", "flat"), ("cut-on", "separate")):
            n = next(turns)
            made[f"blouse-{collar}-{facing}-{size}-{figure}"] = {
                "kind": "blouse", "fit": ("close", "standard", "loose")[n % 3], "collar": collar, "facing": facing, "closure": "buttons",
                "neckline": ("round", "v", "square", "boat")[n % 4] if collar == "none" else "round", "darts": ("side", "shoulder")[n % 2],
                "sleeve": SLEEVES[n % 9], "length": 8 + n % 4, "lined": False,
            }, body  # fmt: skip
        for panels in (2, 3, 4):
            n = next(turns)
            made[f"corset-{panels}-{size}-{figure}"] = {
                "kind": "corset", "fit": ("corset", "close")[n % 2], "panels": panels, "top_edge": ("straight", "sweetheart")[n // 2 % 2],
                "closure": ("back-lacing", "back-zip")[n % 3 == 0], "lined": n % 4 != 0, "rules": {"lower_edge": (0, 2, 3.5, 8)[n % 4]},
            }, body  # fmt: skip
        for closure, kind in itertools.product(("side-zip", "back-lacing", "buttons"), ("bodice", "fitted-dress")):
            n = next(turns)
            made[f"{kind}-{closure}-{size}-{figure}"] = {
                "kind": kind, "fit": "standard", "neckline": ("round", "v", "square", "boat")[n % 4], "darts": DARTS[n // 2 % 4],
                "closure": closure, "sleeve": SLEEVES[n % 9], "skirt": SKIRTS[n % len(SKIRTS)], "lined": n % 3 != 0,
            }, body  # fmt: skip
        made[f"skirt-{size}-{figure}"] = {"kind": "skirt", "skirt": SKIRTS[next(turns) % len(SKIRTS)], "lined": True}, body
    files = {}
    for name, (choices, body) in made.items():
        order = order_file(name, body, **choices)
        if choices.get("kind"):
            order["garment"] = plain(order["garment"])
        if choices.get("kind") == "skirt":
            order["measures"] = {"waist": body["waist"], "hip": body["hip"]}
        files[name] = order
    turns, kinds = {name: turn for turn, name in enumerate(files)}, len(files) // len(BODIES)

    def at_every_run(name: str) -> bool:
        at, kind = divmod(turns[name], kinds)
        size, _ = BODIES[at]
        return (kind + at) % 2 == 0 if size in ENDS else SAMPLE.has(size, kind + at)  # at either end one of the two figures

    return SAMPLE.of(files, at_every_run)


@pytest.fixture(scope="module")
def run(tmp_path_factory):
    return jobsheet(tmp_path_factory.mktemp("garments") / "out", *orders().values())


@pytest.mark.parametrize("name", list(orders()))
def test_each_garment_is_drafted_without_a_fault(run, name):
    assert (run.folder / name / "result.json").exists(), [line for line in run.err.splitlines() if name in line]
    result = run.result(name)
    if not name.startswith("skirt"):  # a skirt alone has neither a bust nor its level
        assert breaches(result) == []
    assert [check["check"] for check in result["checks"] if not check["pass"]] == []
    assert all_faults(result) == []
