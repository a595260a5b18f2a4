"""Documents of up to 4 MiB that try to cost as much as they can, by name. Each function returns the bytes of one."""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import partial
from typing import Any

__all__ = ["FLOODS"]

MOST = 4 * 1024 * 1024
HEAD = '{"format":"kitproof/1","code":"c","title":"t","unit":"in"'

FLOODS: dict[str, Callable[[], bytes]] = {}


def flood(name: str) -> Callable[[Callable[[], bytes]], Callable[[], bytes]]:
    def named(builder: Callable[[], bytes]) -> Callable[[], bytes]:
        FLOODS[name] = builder
        return builder

    return named


def document(**members: Any) -> bytes:
    whole = {"format": "kitproof/1", "code": "c", "title": "t", "unit": "in"} | members
    return json.dumps(whole, separators=(",", ":"), ensure_ascii=False).encode()


def in_projects(members: str, text: str) -> bytes:
    """Projects whose list `members` holds nothing but `text`, as often as a list and a document may."""
    group = f'{{"id":"p","title":"","{members}":[' + ",".join([text] * 20_000) + "]}"
    if len(group.encode()) > MOST:
        fewer = (MOST - 200) // (len(text.encode()) + 1)
        group = f'{{"id":"p","title":"","{members}":[' + ",".join([text] * fewer) + "]}"
    groups = (MOST - 100) // (len(group.encode()) + 1)
    return (HEAD + ',"projects":[' + ",".join([group] * groups) + "]}").encode()


# Where objects belong -----------------------------------------------------------------------------------------------

for _name, _list, _text in (
    ("whole numbers where pieces belong", "pieces", "1"),
    ("texts where pieces belong", "pieces", '""'),
    ("empty pieces", "pieces", "{}"),
    ("pieces with an unknown field", "pieces", '{"":1}'),
    ("pieces of nothing but a field of their own", "pieces", '{"x_":{}}'),
    ("pieces of nothing but an empty list of windows", "pieces", '{"windows":[{}]}'),
    ("empty forms", "forms", "{}"),
    ("trays without anything", "forms", '{"as":"tray"}'),
    ("forms of no construction", "forms", '{"as":""}'),
    ("placements of many copies", "placements", '{"copies":[{},{},{}]}'),
    ("steps with much that is used", "steps", '{"use":[{},{},{"piece":"a","form":"b"}]}'),
    ("pieces with bad lengths", "pieces", '{"size":["",""]}'),
    ("pieces with long bad lengths", "pieces", '{"size":["' + "9" * 500 + '","1"]}'),
    ("pieces with paper and cut-out", "pieces", '{"id":"a","name":"","size":["1","1"],"paper":"a","from":"b"}'),
    ("pieces with texts that are refused", "pieces", '"\\u0001"'),
):
    FLOODS[_name] = partial(in_projects, _list, _text)


@flood("unknown fields in one object")
def unknown_fields() -> bytes:
    return document(**{str(number): 1 for number in range(330_000)})


@flood("unknown fields in many objects")
def unknown_in_many() -> bytes:
    fields = ",".join(f'"{number}":1' for number in range(1000))
    return in_projects("pieces", f"{{{fields}}}")


# Before the shape is judged -----------------------------------------------------------------------------------------


@flood("opening brackets")
def brackets() -> bytes:
    return b"[" * MOST


@flood("brackets to and fro")
def to_and_fro() -> bytes:
    return b"[" + b"[]," * ((MOST - 3) // 3) + b"0]"


@flood("closing brackets")
def closing() -> bytes:
    return b"]" * MOST


@flood("a string that never ends, of escaped quotes")
def escaped_quotes() -> bytes:
    return b'"' + b'\\"' * ((MOST - 1) // 2)


@flood("quotes")
def quotes() -> bytes:
    return b'"' * (MOST - 1)


@flood("empty strings in lists")
def empty_strings() -> bytes:
    return b"[[" + b'"",' * ((MOST - 6) // 3) + b"0]]"


@flood("one key again and again")
def one_key() -> bytes:
    return b"{" + b",".join([b'"":1'] * ((MOST - 2) // 5)) + b"}"


@flood("every key twice")
def keys_twice() -> bytes:
    keys = [f'"{number:x}":1' for number in range(200_000)]
    return ("{" + ",".join(keys + keys) + "}").encode()[: MOST - 1]


@flood("keys equal after composition")
def keys_composed() -> bytes:
    both = [f'"\u00e9{number:x}":1,"e\u0301{number:x}":1' for number in range(150_000)]
    return ("{" + ",".join(both) + "}").encode()


@flood("objects with a key twice")
def objects_doubled() -> bytes:
    group = "[" + ",".join(['{"":1,"":1}'] * 20_000) + "]"
    return (HEAD + ',"x_":[' + ",".join([group] * 17) + "]}").encode()


@flood("lists too long")
def long_lists() -> bytes:
    return document(x_=[[0] * 20_001] * 100)


@flood("a list of millions of lists")
def list_of_lists() -> bytes:
    return b"[" + b"[]," * ((MOST - 4) // 3) + b"0]"


@flood("a list of millions of objects")
def list_of_objects() -> bytes:
    return b"[" + b'{"":0},' * ((MOST - 4) // 7) + b"0]"


@flood("a whole number of millions of digits")
def digits() -> bytes:
    return f'{HEAD},"x_":{"9" * 4_000_000}}}'.encode()


@flood("an exponent of millions of digits")
def exponent() -> bytes:
    return f'{HEAD},"x_":1e{"9" * 4_000_000}}}'.encode()


# Texts --------------------------------------------------------------------------------------------------------------


@flood("combining marks in a text")
def marks() -> bytes:
    return document(title="a" + "\u0315\u0300" * 1_000_000, y=1)


@flood("combining marks in a key")
def marks_in_key() -> bytes:
    return document(**{"x_" + "\u0315\u0300" * 1_000_000: 1}, y=1)


@flood("marks that hide as letters")
def hidden_marks() -> bytes:
    return document(title="\u0f73" * 1_300_000, y=1)


@flood("letters with marks")
def letters_with_marks() -> bytes:
    return document(title="\u1e69\u0315\u0300" * 590_000, y=1)


@flood("a long text with a newline")
def newline() -> bytes:
    return document(title="a" * 4_000_000 + "\n", y=1)


@flood("texts that are refused in a field of one's own")
def bad_texts() -> bytes:
    return document(x_=[["\u0001"] * 20_000] * 22)


@flood("numbers that are refused in a field of one's own")
def bad_numbers() -> bytes:
    return document(x_=[[0.5] * 20_000] * 50)


@flood("one id of millions of letters, and references to it")
def long_ids() -> bytes:
    return document(papers=[{"id": "a" * 2_000_000}], pads="a", tools=[{"id": "b" * 1_900_000, "kind": "knife"}])


@flood("one reference of millions of letters")
def long_reference() -> bytes:
    piece = {"id": "a", "name": "", "size": ["1", "1"], "from": "p/" + "a" * 4_000_000}
    return document(projects=[{"id": "p", "title": "", "pieces": [piece]}])


# References ---------------------------------------------------------------------------------------------------------


def plain_piece(name: str, **more: Any) -> dict[str, Any]:
    return {"id": name, "name": "", "size": ["1", "1"], **more}


@flood("unknown ids beside many known ones")
def unknown_ids() -> bytes:
    steps = [{"id": f"s{number}", "text": "", "tools": [f"u{number}"]} for number in range(20_000)]
    tools = [{"id": f"t{number}", "kind": "knife"} for number in range(20_000)]
    return document(tools=tools, projects=[{"id": "p", "title": "", "steps": steps}])


@flood("unknown ids, as many as are told")
def unknown_ids_told() -> bytes:
    steps = [{"id": f"s{number}", "text": "", "tools": [f"u{number}"]} for number in range(999)]
    tools = [{"id": f"t{number}", "kind": "knife"} for number in range(20_000)]
    pads = [{"id": f"t{number}", "name": "", "size": ["1", "1"]} for number in range(20_000)]
    return document(tools=tools, pads=pads, projects=[{"id": "p", "title": "", "steps": steps}])


def chain(last: str, count: int = 19_999) -> bytes:
    window = [{"id": "w", "left": "1", "width": "1", "top": "1", "height": "1"}]
    pieces = [plain_piece(f"a{at}", windows=window, **{"from": f"p/a{at + 1}/w"}) for at in range(count)]
    pieces.append(plain_piece(f"a{count}", windows=window, **{"from": last}))
    return document(projects=[{"id": "p", "title": "", "pieces": pieces}])


@flood("a loop of cut-outs")
def loop_of_cut_outs() -> bytes:
    return chain("p/a0/w")


@flood("a chain of cut-outs into a small loop")
def chain_into_loop() -> bytes:
    return chain("p/a19998/w")


@flood("many steps that close things, and many blanks")
def closing_steps() -> bytes:
    blanks = [{"id": f"b{number}", "name": ""} for number in range(20_000)]
    steps = [{"id": f"s{number}", "text": "", "closes": ["b1"]} for number in range(20_000)]
    broken = [{"id": f"s{number}", "text": "", "closes": ["b1"]} for number in range(20_000)]
    return document(
        blanks=blanks,
        projects=[{"id": "p", "title": "", "steps": steps}, {"id": "p", "title": "", "steps": broken}],
    )


@flood("many projects, and many blanks")
def many_projects() -> bytes:
    blanks = [{"id": f"b{number}", "name": ""} for number in range(20_000)]
    made = [
        {"id": f"p{number}", "title": "", "steps": [{"id": "a", "text": "", "closes": ["b1"]}]}
        for number in range(19_999)
    ]
    return document(blanks=blanks, projects=[*made, {"id": "p1", "title": ""}])


@flood("the same id all over")
def same_ids() -> bytes:
    return in_projects("steps", '{"id":"s","text":""}')


@flood("many papers for one piece")
def many_papers() -> bytes:
    pieces = [plain_piece(f"a{number}", paper={"each": ["p"] * 20_000}) for number in range(40)]
    return document(projects=[{"id": "p", "title": "", "pieces": pieces}])


@flood("outlines of many corners")
def many_corners() -> bytes:
    shape = {"kind": "polygon", "points": [["0", "0"]] * 20_000}
    pieces = [plain_piece(f"a{number}", shape=shape) for number in range(20)]
    return document(projects=[{"id": "p", "title": "", "pieces": pieces, "makes": 0}])


@flood("outlines of many corners off the grid")
def corners_off_grid() -> bytes:
    shape = {"kind": "polygon", "points": [["1.1", "1.1"]] * 20_000}
    pieces = [plain_piece(f"a{number}", shape=shape) for number in range(14)]
    return document(projects=[{"id": "p", "title": "", "pieces": pieces}])


@flood("steps that wait for many others")
def many_after() -> bytes:
    steps = [{"id": f"s{number}", "text": "", "after": ["p/s0"] * 2000} for number in range(200)]
    return document(projects=[{"id": "p", "title": "", "steps": [*steps, {"id": "s1", "text": ""}]}])


@flood("a valid document with one fault at its end")
def almost_valid() -> bytes:
    pieces = [plain_piece(f"a{number}", paper="q", windows=[]) for number in range(20_000)]
    whole = [{"id": f"p{number}", "title": "", "pieces": pieces} for number in range(3)]
    paper = {"id": "q", "name": "", "size": ["8", "8"], "sheets": 1, "front": {"name": ""}}
    return document(papers=[paper], projects=whole, accepted=[{}])


@flood("very many copies, and a fault")
def many_copies() -> bytes:
    put = {"put": {"piece": "a"}, "on": {"piece": "a"}, "copies": [{"on_copy": 1}] * 20_000}
    placements = [{"id": f"l{number}", **put} for number in range(14)]
    return document(projects=[{"id": "p", "title": "", "placements": placements}])


@flood("very many copies with nulls, and a fault")
def many_copies_with_nulls() -> bytes:
    put = {"put": {"piece": "a"}, "on": {"piece": "a"}, "copies": [{"on_copy": 1, "top": None, "x_": 0}] * 20_000}
    placements = [{"id": f"l{number}", **put} for number in range(5)]
    return document(projects=[{"id": "p", "title": "", "placements": placements}])


@flood("very many things used, and a fault")
def many_uses() -> bytes:
    used = [{"blank": "a"}] * 20_000
    steps = [{"id": f"s{number}", "text": "", "use": used} for number in range(13)]
    steps.append({"id": "last", "text": "", "use": [*used[1:], {"blank": "b"}]})
    return document(blanks=[{"id": "a", "name": ""}], projects=[{"id": "p", "title": "", "steps": steps}])


@flood("very many scores, and a fault")
def many_scores() -> bytes:
    form = {
        "name": "",
        "as": "scored",
        "paper": "q",
        "size": ["1", "1"],
        "scores": [{"from": "top", "at": "1"}] * 20_000,
    }
    return document(projects=[{"id": "p", "title": "", "forms": [{"id": f"f{at}", **form} for at in range(7)]}])


@flood("lengths that all differ, and a fault")
def lengths_that_differ() -> bytes:
    points = [[f"{at}", f"{at}.{half}"] for at in range(10, 9990) for half in (5, 25)]
    pieces = [plain_piece(f"a{at}", shape={"kind": "polygon", "points": points}) for at in range(10)]
    return document(unit="mm", projects=[{"id": "p", "title": "", "pieces": pieces, "makes": 0}])
