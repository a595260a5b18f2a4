"""Every bound of the contract, on both of its sides, and what no document may hold: exact pointers and codes."""

from __future__ import annotations

import json
import sys
from typing import Any

import pytest

from layouts.document import Kit, Refused, canonical_tree, read_kit

MIB = 1024 * 1024
LEAST = {"format": "kitproof/1", "code": "c", "title": "t", "unit": "in"}


def written(**members: Any) -> bytes:
    """A document with these members more; their values are JSON already."""
    text = json.dumps(LEAST)[:-1]
    return (text + "".join(f', "{name}": {value}' for name, value in members.items()) + "}").encode()


def read(data: bytes) -> Kit | list[tuple[str, str]]:
    try:
        return read_kit(data)
    except Refused as refusal:
        return [(error.pointer, error.code) for error in refusal.errors]


def own(data: bytes) -> Any:
    """The content of the field x_a of a document that is read."""
    return canonical_tree(read_kit(data))["x_a"]


def nested(levels: int, inside: str = "") -> str:
    return "[" * levels + inside + "]" * levels


# 4 MiB --------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "fill",
    [
        pytest.param(lambda data, size: data.ljust(size), id="by white space behind"),
        pytest.param(lambda data, size: data.rjust(size), id="by white space in front"),
        pytest.param(lambda data, size: data[:-2] + b"x" * (size - len(data)) + data[-2:], id="by a text"),
    ],
)
def test_four_mib_are_read_and_a_byte_more_is_not(fill):
    data = written(x_a='"x"')
    assert isinstance(read(fill(data, 4 * MIB)), Kit)
    assert read(fill(data, 4 * MIB + 1)) == [("", "too-large")]


def test_too_large_comes_before_everything_else():
    assert read(b"\xef\xbb\xbf" + b"[" * 4 * MIB) == [("", "too-large")]


# Byte-order marks and encodings -------------------------------------------------------------------------------------


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "utf-32"])
def test_a_document_with_a_byte_order_mark_is_refused(encoding):
    assert read(written().decode().encode(encoding)) == [("", "byte-order-mark")]


@pytest.mark.parametrize(
    "mark",
    [b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff", b"\xff\xfe\x00\x00", b"\x00\x00\xfe\xff"],
    ids=["UTF-8", "UTF-16 LE", "UTF-16 BE", "UTF-32 LE", "UTF-32 BE"],
)
def test_a_byte_order_mark_is_named_whatever_follows(mark):
    assert read(mark) == [("", "byte-order-mark")]
    assert read(mark + b"\xff[") == [("", "byte-order-mark")]


def test_a_byte_order_mark_elsewhere_is_a_letter_or_no_json():
    assert isinstance(read(written(x_a='"\ufeff"')), Kit)
    assert read(b" \xef\xbb\xbf" + written()) == [("", "not-json")]


@pytest.mark.parametrize(
    "data",
    [
        pytest.param(b"", id="nothing"),
        pytest.param(b" \n", id="white space"),
        pytest.param(b"{", id="an end that is missing"),
        pytest.param(b'{"a": 1,}', id="a comma too many"),
        pytest.param(b"{} {}", id="two documents"),
        pytest.param(b"{'a': 1}", id="single quotes"),
        pytest.param(b"{a: 1}", id="a bare key"),
        pytest.param(b"{1: 1}", id="a key that is a number"),
        pytest.param(b"// none\n{}", id="a comment"),
        pytest.param(b"None", id="a word of Python"),
        pytest.param(b"0x10", id="hexadecimal"),
        pytest.param(b"01", id="a zero in front"),
        pytest.param(b"+1", id="a plus"),
        pytest.param(b".5", id="no digit before the point"),
        pytest.param(b"1.", id="no digit behind the point"),
        pytest.param(b'"\\x41"', id="an escape that JSON lacks"),
        pytest.param(b'"\\u12"', id="half an escape"),
        pytest.param(b'"a\nb"', id="a bare newline in a text"),
        pytest.param(b'"a\tb"', id="a bare tab in a text"),
        pytest.param(b'"a\x00b"', id="a bare NUL in a text"),
        pytest.param(b'"\xe9"', id="Latin-1"),
        pytest.param(b'"\xc3"', id="half a letter"),
        pytest.param(b'"\xed\xa0\x80"', id="a surrogate in bytes"),
        pytest.param(b'"\xc0\xaf"', id="an overlong slash"),
        pytest.param(b'"\xf4\x90\x80\x80"', id="beyond Unicode"),
        pytest.param(b"{\xc2\xa0}", id="a non-breaking space between"),
        pytest.param(b"NaN", id="not a number"),
        pytest.param(b"[NaN]", id="not a number, in a list"),
        pytest.param(b"Infinity", id="infinity"),
        pytest.param(b"-Infinity", id="minus infinity"),
        pytest.param(b"nan", id="not a number in small letters"),
    ],
)
def test_what_is_no_json_is_refused_at_the_root(data):
    assert read(data) == [("", "not-json")]


@pytest.mark.parametrize("name", ["NaN", "Infinity", "-Infinity"])
def test_numbers_that_are_none_are_refused_everywhere(name):
    assert read(written(x_a=f'{{"b": [{name}]}}')) == [("", "not-json")]
    assert read(written(papers=f'[{{"sheets": {name}}}]')) == [("", "not-json")]


# 64 levels ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("opening", "closing", "levels"),
    [
        pytest.param("[", "]", 1, id="lists"),
        pytest.param('{"a":', "}", 1, id="objects"),
        pytest.param('[{"a":', "}]", 2, id="both"),
    ],
)
def test_sixty_four_levels_are_read_and_one_more_is_not(opening, closing, levels):
    # The document itself is the first level.
    times = 63 // levels
    rest = 63 - times * levels
    deep = opening * times + nested(rest, "1") + closing * times if rest else opening * times + "1" + closing * times
    assert isinstance(read(written(x_a=deep)), Kit)
    assert read(written(x_a=f"[{deep}]")) == [("", "too-deep")]


def test_levels_are_counted_before_anything_is_parsed():
    assert read(b"[" * 65) == [("", "too-deep")]
    assert read(b"nonsense" + b"[" * 65) == [("", "too-deep")]
    assert read(b"[" * 64) == [("", "not-json")]


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("[" * 100, id="brackets"),
        pytest.param("{" * 100 + "]", id="braces"),
        pytest.param('\\"' + "[" * 100, id="behind an escaped quote"),
        pytest.param("\\\\" * 3 + "[" * 100, id="behind backslashes"),
        pytest.param('\\\\\\"' + "[" * 100, id="behind a backslash and an escaped quote"),
        pytest.param("\\u005b" * 100, id="escaped brackets"),
    ],
)
def test_brackets_in_texts_are_no_levels(text):
    assert isinstance(read(written(x_a=f'"{text}"')), Kit)
    assert isinstance(read(written(**{f"x_{text}": "1"})), Kit)


def test_levels_beside_each_other_do_not_add_up():
    assert isinstance(read(written(x_a="[" + ",".join([nested(60)] * 100) + "]")), Kit)


def test_levels_behind_many_texts_are_still_counted():
    """The texts are taken out some thousands at a time; the depth goes on from one lot to the next."""
    texts = ",".join(['"["'] * 10_000)
    assert isinstance(read(written(x_a=f"[[{texts}], {nested(62)}, [{texts}], {nested(62)}]")), Kit)
    assert read(written(x_a=f"[[{texts}], {nested(62)}, [{texts}], {nested(63)}]")) == [("", "too-deep")]
    assert read(written(x_a=f"{'[' * 30}[{texts}], {'[' * 34}")) == [("", "too-deep")]


# 20,000 members -----------------------------------------------------------------------------------------------------


def test_twenty_thousand_members_are_read_and_one_more_is_not():
    assert isinstance(read(written(x_a=json.dumps([0] * 20_000))), Kit)
    assert read(written(x_a=json.dumps([0] * 20_001))) == [("/x_a", "too-many")]
    assert read(written(x_a=json.dumps({"b": [[], [None] * 20_001]}))) == [("/x_a/b/1", "too-many")]
    assert read(json.dumps([0] * 20_001).encode()) == [("", "too-many")]


def test_objects_may_have_more_members_than_lists():
    assert len(own(written(x_a=json.dumps({str(number): 0 for number in range(20_001)})))) == 20_001


def test_lists_that_are_too_long_are_all_told_before_anything_else_is_judged():
    data = written(
        title="5",
        nosuch="1",
        papers=json.dumps([5] * 20_001),
        x_a=json.dumps({"b": ["\u0000"] * 20_001}),
        pads='[{"a": 1, "a": 1}]',
    )
    assert read(data) == [("/papers", "too-many"), ("/x_a/b", "too-many")]


def test_a_list_within_a_list_that_is_too_long_is_not_told_as_well():
    assert read(written(x_a=json.dumps([[0] * 20_001] + [0] * 20_000))) == [("/x_a", "too-many")]


# Keys ---------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("members", "expected"),
    [
        pytest.param('"b": 1, "b": 1', ["/x_a/b"], id="twice the same"),
        pytest.param('"b": 1, "b": 2, "b": 3', ["/x_a/b"], id="three times"),
        pytest.param('"b": 1, "\\u0062": 1', ["/x_a/b"], id="written as an escape"),
        pytest.param('"": 1, "": 1', ["/x_a/"], id="empty keys"),
        pytest.param(
            '"é": 1, "e\u0301": 1', ["/x_a/e\u0301"], id="equal after composition: the later as it is written"
        ),
        pytest.param('"e\u0301": 1, "é": 1', ["/x_a/é"], id="equal after composition, the other way"),
        pytest.param(
            '"\u212b": 1, "\u00c5": 1, "A\u030a": 1', ["/x_a/A\u030a", "/x_a/\u00c5"], id="three that are equal"
        ),
        pytest.param('"b/c": 1, "b/c": 1', ["/x_a/b~1c"], id="a slash in the pointer"),
        pytest.param('"b~c": 1, "b~c": 1', ["/x_a/b~0c"], id="a tilde in the pointer"),
        pytest.param(
            '"b": {"c": 1, "c": 1}, "d": [{"e": 1, "e": 1}]', ["/x_a/b/c", "/x_a/d/0/e"], id="in several objects"
        ),
        pytest.param('"b": {"c": 1, "c": 1}, "b": {"d": 1, "d": 1}', ["/x_a/b", "/x_a/b/d"], id="inside a doubled one"),
    ],
)
def test_a_key_that_stands_twice_is_refused_where_it_stands_again(members, expected):
    assert read(written(x_a=f"{{{members}}}")) == [(pointer, "duplicate-key") for pointer in expected]


def test_keys_that_differ_are_no_duplicates():
    assert own(written(x_a='{"b": 1, "B": 2, "ﬁ": 3, "fi": 4, "2½": 5, "21⁄2": 6}')) == {
        "b": 1,
        "B": 2,
        "ﬁ": 3,
        "fi": 4,
        "2½": 5,
        "21⁄2": 6,
    }


def test_doubled_keys_come_before_the_shape():
    assert read(written(title="5", code='"c"', nosuch="1")) == [("/code", "duplicate-key"), ("/title", "duplicate-key")]


NAMES = [
    "__proto__",
    "constructor",
    "__class__",
    "__dict__",
    "__init__",
    "__pydantic_extra__",
    "__pydantic_fields_set__",
    "model_config",
    "model_fields",
    "model_validate",
    "carried",
    "as_",
    "in_",
    "from_",
    "self",
    "cls",
    "$ref",
    "$schema",
    "X_a",
    "x-a",
    "х_a",  # a Cyrillic letter
    "ｘ_a",
    " x_a",
    "",
]


@pytest.mark.parametrize("name", NAMES)
def test_names_that_look_like_the_insides_of_programs_are_unknown_fields(name):
    pointer = "/" + name.replace("~", "~0").replace("/", "~1")
    assert read(written(**{name: "1"})) == [(pointer, "unknown-field")]
    assert read(written(**{name: '{"x_a": null}'})) == [(pointer, "unknown-field")]
    assert own(written(x_a=json.dumps({name: 1}))) == {name: 1}


def test_an_unknown_key_is_told_as_it_is_written():
    decomposed = {"e\u0301": "1"}
    assert read(written(**decomposed)) == [("/e\u0301", "unknown-field")]


# Numbers ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("number", "code"),
    [
        pytest.param("1.0", "wrong-type", id="a point"),
        pytest.param("1e0", "wrong-type", id="an exponent"),
        pytest.param("1E2", "wrong-type", id="a capital exponent"),
        pytest.param("1e999", "wrong-type", id="an exponent beyond all numbers"),
        pytest.param("-1e999", "wrong-type", id="an exponent below all numbers"),
        pytest.param("1e-999", "wrong-type", id="an exponent that comes to nothing"),
        pytest.param("9007199254740993", "out-of-range", id="2^53 + 1"),
        pytest.param("-9007199254740993", "out-of-range", id="-2^53 - 1"),
        pytest.param("9" * 5000, "out-of-range", id="more digits than Python reads"),
        pytest.param("-" + "9" * 5000, "out-of-range", id="as many below nothing"),
        pytest.param("9" * 31, "out-of-range", id="31 digits"),
    ],
)
def test_numbers_are_whole_and_no_greater_than_floats_tell_apart(number, code):
    assert read(written(x_a=number)) == [("/x_a", code)]
    assert read(written(x_a=f'[{{"b": {number}}}]')) == [("/x_a/0/b", code)]
    paper = f'[{{"id": "q", "name": "", "size": ["1", "1"], "front": {{"name": ""}}, "sheets": {number}}}]'
    assert read(written(papers=paper)) == [("/papers/0/sheets", code)]


@pytest.mark.parametrize("number", [0, -1, 2**53, -(2**53), 10**15])
def test_numbers_in_a_field_of_ones_own_are_kept(number):
    assert own(written(x_a=str(number))) == number


def test_a_number_of_the_least_size_that_is_cut_short_is_still_out_of_range():
    digits = sys.int_info.default_max_str_digits
    for many in (30, 31, digits, digits + 1):
        assert read(written(x_a="1" * many)) == [("/x_a", "out-of-range")]


# Letters ------------------------------------------------------------------------------------------------------------

CONTROLS = [chr(code) for code in (*range(0x20), 0x7F, *range(0x80, 0xA0)) if chr(code) not in "\t\n"]


@pytest.mark.parametrize(
    "letter", [*CONTROLS, *map(chr, (0xD800, 0xDBFF, 0xDC00, 0xDFFF))], ids=lambda letter: f"U+{ord(letter):04X}"
)
def test_control_characters_and_lone_surrogates_are_refused_in_texts_and_keys(letter):
    escaped = f"\\u{ord(letter):04x}"
    data = json.dumps({**LEAST, "title": f"a{letter}b"}).encode()
    assert read(data) == [("/title", "bad-text")]
    assert read(written(x_a=f'{{"b": ["{escaped}"]}}')) == [("/x_a/b/0", "bad-text")]
    assert read(written(x_a=f'{{"{escaped}": 1}}')) == [(f"/x_a/{letter}", "bad-text")]
    assert read(written(**{f"x_{escaped}": "1"})) == [(f"/x_{letter}", "bad-text")]
    assert read(written(**{f"title{escaped}": "1"})) == [(f"/title{letter}", "bad-text")]


@pytest.mark.parametrize(
    "letter", ["\t", "\n", "\u2028", "\u00a0", "\ufeff", "\uffff", "\U0010ffff", "\U0001f426", "\u202e"]
)
def test_other_letters_are_texts(letter):
    escaped = json.dumps(letter)
    assert own(written(x_a=escaped)) == letter


def test_a_pair_of_surrogates_is_one_letter():
    assert own(written(x_a='"\\ud83d\\udc26"')) == "\U0001f426"
    assert read(written(x_a='"\\udc26\\ud83d"')) == [("/x_a", "bad-text")]


def test_a_refused_text_is_told_once_and_hides_what_else_is_wrong_with_it():
    assert read(json.dumps({**LEAST, "code": "no id\u0000"}).encode()) == [("/code", "bad-text")]
    assert read(json.dumps({**LEAST, "unit": "\ud800"}).encode()) == [("/unit", "bad-text")]


def test_the_sentence_names_the_letter_and_can_be_printed():
    with pytest.raises(Refused) as refusal:
        read_kit(written(x_a='"\\ud800"'))
    assert "U+D800" in refusal.value.errors[0].message
    for data in (written(x_a='{"\\ud800": 1, "\\ud800": 2}'), written(**{"\\ud800": "1"})):
        with pytest.raises(Refused) as refusal:
            read_kit(data)
        for error in refusal.value.errors:
            error.message.encode()


# Sentences ----------------------------------------------------------------------------------------------------------


def test_sentences_stay_short_whatever_was_typed():
    long = "a" * 1_000_000
    pieces = [
        {"id": long, "name": "", "size": [long, "1"], "paper": long, "from": long, "mirror_of": "a", "side": long},
        {"id": "B", "name": "", "size": ["1", "1"], "from": long},
    ]
    steps = [{"id": "s", "text": "", "after": [long], "work": long, "use": [{"element": long}]}]
    forms = [{"id": "f", "as": long}]
    project = {"id": "p", "title": "", "pieces": pieces[1:], "steps": steps, "forms": forms}
    for projects in ([project], [{**project, "pieces": pieces[:1], "steps": []}]):
        with pytest.raises(Refused) as refusal:
            read_kit(written(projects=json.dumps(projects)))
        assert max(len(error.message) for error in refusal.value.errors) < 300
