"""Each system proved as printed: lists that fit exactly must fit with the sizes that are shown.

By hand: 8 in = 203.2 mm, 4 in = 101.6 mm (identity).
"""

from __future__ import annotations

from typing import Any

import jsonschema

from layouts.document import Kit, read_kit_tree
from layouts.printed import Printing
from layouts.proofing import PrintAnswer, print_parts, prove_at_once
from layouts.proofing.as_printed import AsPrinted
from layouts.proofing.rules.printed import SHORT_AS_PRINTED
from layouts.proofing.runner import prove_as_printed


def kit_of(pieces: Any = (), forms: Any = (), *, size: Any = ("8", "8"), unit: str = "in", **more: Any) -> Kit:
    return read_kit_tree(
        {
            "format": "kitproof/1",
            "code": "c",
            "title": "t",
            "unit": unit,
            "papers": [{"id": "q", "name": "Oak", "size": list(size), "sheets": 1, "front": {"name": "f"}}],
            "projects": [{"id": "p", "title": "t", "pieces": list(pieces), "forms": list(forms)}],
            **more,
        }
    )


def proof(*things: Any, **more: Any) -> dict[str, Any]:
    return prove_at_once(kit_of(*things, **more))


def piece(id_: str, width: str, height: str, count: int = 1, **fields: Any) -> dict[str, Any]:
    return {"id": id_, "name": id_, "paper": "q", "size": [width, height], "count": count, **fields}


def shown(made: Any, system: str = "mm") -> dict[str, str]:
    return {one["at"].removeprefix("project:p/"): one[system] for one in made["printed"]}


def short(made: Any) -> list[Any]:
    return [one for one in made["findings"] if one["rule"] == "short-as-printed"]


def test_a_size_is_rounded_down_where_the_list_would_not_fit_otherwise():
    # Two pieces 4 in wide fill 8 in; shown as 102 mm they would take 204 of 203.2.
    made = proof([piece("A", "4", "3", 2)], size=("8", "3"))
    assert shown(made)["piece:A/size/width"] == "101"
    assert short(made) == []


def test_without_need_it_is_rounded_to_the_nearest():
    assert shown(proof([piece("A", "4", "3", 2)], size=("8 1/2", "3")))["piece:A/size/width"] == "102"


def test_no_more_is_rounded_down_than_has_to_be():
    # 101.6 + 50.8 + 50.8 = 203.2: 102 + 51 + 51 = 204; with the first one down it is 203.
    made = proof([piece("A", "4", "3"), piece("B", "2", "3", 2)], size=("8", "3"))
    assert [shown(made)[f"piece:{one}/size/width"] for one in "AB"] == ["101", "51"]


def test_equal_sizes_are_rounded_down_together():
    # 4 x 50.8 = 203.2: with one of them down it would fit too, but A and B are as wide as each other.
    made = proof([piece("A", "4", "2 7/8"), piece("B", "4", "2 7/8")], size=("8", "2 7/8"))
    assert [shown(made)[f"piece:{one}/size/width"] for one in "AB"] == ["101", "101"]


def test_a_list_that_no_choice_of_figures_fits_is_short_as_printed():
    """Two panels of 2 in are 50 or 51 mm, so the strip of 4 in is shown as 102: two of them take 204 of 203.2."""
    strip = {"id": "f", "name": "strip", "as": "concertina", "paper": "q", "panel": ["2", "3"], "panels": 2, "count": 2}
    made = proof(forms=[strip], size=("8", "3"))
    (found,) = short(made)
    assert (made["papers"][0]["verdict"], made["verdict"], found["weight"]) == ("fits", "not-ready", "fix")
    assert found["at"] == ["paper:q", "project:p/form:f"]
    assert found["why"] == {
        "system": "mm",
        "sheets": 1,
        "at_least": 2,
        "pieces": [{"at": "project:p/form:f", "width": 102 * 320, "height": 76 * 320, "copies": 2}],
    }
    assert "millimetres" in found["message"]
    assert "102 × 76 mm" in found["message"]
    schema = {"type": "object", "properties": dict(SHORT_AS_PRINTED.why), "additionalProperties": False}
    jsonschema.validate(found["why"], schema)
    # As printed in inches nothing differs, and there is no plan to tell.
    assert made["as_printed"] == {"in": [], "mm": []}


def test_the_same_list_with_a_finer_step_is_not_short():
    strip = {"id": "f", "name": "strip", "as": "concertina", "paper": "q", "panel": ["2", "3"], "panels": 2, "count": 2}
    assert short(proof(forms=[strip], size=("8", "3"), printed={"mm": "0.1 mm"})) == []


def test_a_kit_in_millimetres_is_proved_in_inches():
    # 100 mm is 3.937 in: 3 15/16 = 100.0125, and two of them take 0.025 mm more than 200.
    made = proof([piece("A", "100", "60", 2)], size=("200", "60"), unit="mm")
    assert (shown(made, "in")["piece:A/size/width"], short(made)) == ("3 7/8", [])


def test_a_size_off_the_step_of_its_own_unit_is_proved_as_printed():
    # 33.5 x 3 = 100.5: shown as 34 (the even one) it would take 102.
    made = proof([piece("A", "33.5", "60", 3)], size=("100.5", "60"), unit="mm")
    assert shown(made)["piece:A/size/width"] == "33"


def test_a_print_that_is_short_exactly_is_not_told_twice():
    made = proof([piece("A", "4", "3", 3)], size=("8", "3"))
    assert [one["rule"] for one in made["findings"] if one["rule"] in ("paper-short", "short-as-printed")] == [
        "paper-short"
    ]


def test_plans_as_printed_cut_the_shown_sizes():
    made = proof([piece("A", "4", "3", 2)], size=("8", "3"))
    (one,) = made["as_printed"]["mm"]
    widths = []

    def walk(node: Any) -> None:
        if "piece" in node:
            widths.append((node["width"], node["height"]))
        for part in node.get("parts", ()):
            walk(part)

    walk(one["plan"][0]["tree"])
    assert (one["paper"], widths) == ("q", [(101 * 320, 76 * 320)] * 2)


def test_what_comes_out_of_a_window_comes_out_as_printed():
    # 76.2 in a window that leaves as much of 152.4: 152 - 38 - 38 = 76, and the guest is shown as 76.
    pane = {"id": "w", "left": "1 1/2", "right": "1 1/2", "top": "1", "bottom": "1", "cut_out": "kept"}
    pieces = [
        piece("A", "6", "6", windows=[pane]),
        {"id": "B", "name": "B", "from": "p/A/w", "size": ["3", "4"]},
    ]
    made = proof(pieces)
    assert short(made) == []
    (one,) = made["as_printed"]["mm"]
    assert "cut_outs" in str(one["plan"])


def test_what_is_not_decided_as_printed_is_told():
    kit = kit_of([piece("A", "4", "3", 2)], size=("8", "3"))
    (part,) = print_parts(kit)
    exact = PrintAnswer(part, "fits", "plan", 1, 1)
    printing = Printing(kit)
    found = AsPrinted(printing.shown("mm"), (PrintAnswer(part, "unknown", "budget", 1, None),))
    inches = AsPrinted(printing.shown("in"), ())
    made = prove_as_printed(kit, [exact], printing, {"in": inches, "mm": found})
    (told,) = [one for one in made["findings"] if one["rule"] == "paper-undecided"]
    assert (told["why"]["cause"], told["at"]) == ("as-printed", ["paper:q", "project:p/piece:A"])
    assert told["weight"] == "note"
    assert made["as_printed"]["mm"] == []
