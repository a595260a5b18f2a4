"""The list of errors itself: its order, its length, its way between processes."""

from __future__ import annotations

import copy
import pickle

import pytest

from layouts.document import DocumentError, Refused, read_kit_tree
from layouts.document.refusal import pointer_of
from layouts.errors import KitproofError
from tests.unit.document.making import changed, refusals


@pytest.mark.parametrize(
    ("path", "expected"),
    [
        # RFC 6901, section 5.
        pytest.param((), "", id="the whole document"),
        pytest.param(("foo",), "/foo", id="a member"),
        pytest.param(("foo", 0), "/foo/0", id="a member of a list"),
        pytest.param(("",), "/", id="an empty name"),
        pytest.param(("a/b",), "/a~1b", id="a slash"),
        pytest.param(("m~n",), "/m~0n", id="a tilde"),
        pytest.param(("~1",), "/~01", id="a tilde before a one"),
        pytest.param((" ",), "/ ", id="a space"),
        pytest.param(('k"l',), '/k"l', id="a quote"),
    ],
)
def test_pointers(path, expected):
    assert pointer_of(path) == expected


def errors(count: int) -> list[DocumentError]:
    return [DocumentError(f"/{number:05}", "missing", "m") for number in range(count)]


def test_errors_are_sorted_by_pointer_then_code_and_told_once():
    one, two, three = (
        DocumentError("/b", "missing", "m"),
        DocumentError("/a", "wrong-type", "m"),
        DocumentError("/a", "off-grid", "m"),
    )
    assert Refused([one, two, three, one]).errors == (three, two, one)


def test_pointers_are_sorted_as_texts():
    tree = changed(("/tools", [5] * 12))
    assert [pointer for pointer, _ in refusals(tree)][:4] == ["/tools/0", "/tools/1", "/tools/10", "/tools/11"]


def test_a_thousand_errors_are_told():
    assert Refused(errors(1000)).errors == tuple(errors(1000))


@pytest.mark.parametrize("count", [1001, 5000])
def test_beyond_a_thousand_one_more_says_that_there_are_more(count):
    told = Refused(reversed(errors(count))).errors
    assert len(told) == 1001
    assert (told[0].pointer, told[0].code) == ("", "more-errors")
    assert told[1:] == tuple(errors(1000))


@pytest.mark.parametrize(
    "make",
    [
        pytest.param(lambda count: {"tools": [5] * count}, id="in one list"),
        pytest.param(lambda count: {f"n{number}": 1 for number in range(count)}, id="in one object"),
        pytest.param(lambda count: {"tools": [{"id": f"t{n}", "kind": "x"} for n in range(count)]}, id="deeper"),
        pytest.param(lambda count: {"x_": ["\x01"] * count}, id="of texts in a field of one's own"),
        pytest.param(
            lambda count: {
                "papers": [
                    {"id": f"p{n}", "name": "", "pad": "q", "sheets": 1, "front": {"name": ""}} for n in range(count)
                ]
            },
            id="of references",
        ),
    ],
)
def test_a_document_with_a_thousand_errors_tells_them_all_and_with_more_it_says_so(make):
    least = {"format": "kitproof/1", "code": "c", "title": "t", "unit": "in"}
    thousand, more = refusals({**least, **make(1000)}), refusals({**least, **make(1001)})
    assert len(thousand) == 1000
    assert "more-errors" not in {code for _, code in thousand}
    assert len(more) == 1001
    assert more[0] == ("", "more-errors")
    assert len(refusals({**least, **make(3000)})) == 1001


@pytest.mark.parametrize("count", [1, 1000, 1001])
def test_a_refusal_survives_the_way_between_processes(count):
    refusal = Refused(errors(count))
    for again in (pickle.loads(pickle.dumps(refusal)), copy.copy(refusal)):
        assert isinstance(again, Refused)
        assert isinstance(again, KitproofError)
        assert again.errors == refusal.errors
        assert again.message == refusal.message


def test_a_refusal_has_a_code_and_a_sentence():
    with pytest.raises(KitproofError) as refusal:
        read_kit_tree({})
    assert refusal.value.code == "refused"
    assert "4 errors" in refusal.value.message
