"""Turns against real turning: an oriented letter is printed on both sides of a leaf, cut, turned and read.

A view of one side is a 2 × 2 letter; turning and mirroring it is all that is used, no angles are added or subtracted.
"""

from __future__ import annotations

from itertools import product

import pytest

from layouts.document.values import PrintReads, Reads
from layouts.shapes import missing_side, turn_on_sheet, turns_in_cut_out, turns_on_sheet
from tests.unit.shapes.making import leaf

Letter = tuple[tuple[str, str], tuple[str, str]]

LETTER: Letter = (("a", "b"), ("c", "d"))
READS: tuple[Reads, ...] = ("up", "left", "down", "right")
TURNS = (0, 90, 180, 270)
KINDS = ("one-way", "two-way", "any")


def turned(letter: Letter, turn: int) -> Letter:
    """Anticlockwise."""
    for _ in range(turn // 90):
        (a, b), (c, d) = letter
        letter = ((b, d), (a, c))
    return letter


def mirrored(letter: Letter) -> Letter:
    (a, b), (c, d) = letter
    return ((b, a), (d, c))


def reading(reads: Reads) -> Letter:
    """The letter with its top pointing there."""
    return turned(LETTER, READS.index(reads) * 90)


class Leaf:
    """A leaf as seen from its front: the front's letter, and the back's as it would show through."""

    def __init__(self, front: Letter, through: Letter) -> None:
        self.front, self.through = front, through

    @classmethod
    def printed(cls, front_reads: Reads, back_reads: Reads) -> Leaf:
        return cls(reading(front_reads), mirrored(reading(back_reads)))

    def turned(self, turn: int) -> Leaf:
        return Leaf(turned(self.front, turn), turned(self.through, turn))

    def over(self) -> Leaf:
        """Turned like a page: left becomes right."""
        return Leaf(mirrored(self.through), mirrored(self.front))


def cut(lying: Leaf, turn: int) -> Leaf:
    """Take up a piece that lies turned by this, and set it upright."""
    return lying.turned(-turn % 360)


def reads_right(view: Letter, repeat: str, print_reads: PrintReads) -> bool:
    if repeat == "any" or print_reads == "any":
        return True
    wanted = reading(print_reads)
    return view in ((wanted, turned(wanted, 180)) if repeat == "two-way" else (wanted,))


ASKED: tuple[PrintReads, ...] = (*READS, "any")
CASES = list(product(READS, KINDS, READS, KINDS, ASKED))


def paper_of(front: str, front_kind: str, back: str, back_kind: str):
    return leaf({"reads": front, "repeat": front_kind}, {"reads": back, "repeat": back_kind})


def test_a_letter_turned_left_points_left():
    """The oracle itself: b, at the right of the top row, comes to the left of it when the top turns to the left."""
    assert reading("left") == (("b", "d"), ("a", "c"))
    assert Leaf.printed("up", "left").over().front == reading("left")


@pytest.mark.parametrize("side", ["front", "back", "either", "both"])
def test_a_piece_lies_on_the_sheet_in_exactly_the_turns_in_which_it_reads_as_asked(side):
    for front, front_kind, back, back_kind, print_reads in CASES:
        sheet = Leaf.printed(front, back)
        expected = {}
        for turn in TURNS:
            ahead, behind = cut(sheet, turn), cut(sheet.over(), turn)
            on_front = reads_right(ahead.front, front_kind, print_reads)
            on_back = reads_right(behind.front, back_kind, print_reads)
            if side == "both":
                on_front = on_front and reads_right(ahead.over().front, back_kind, print_reads)
            if side != "back" and on_front:
                expected[turn] = "front"
            elif side in ("back", "either") and on_back:
                expected[turn] = "back"
        case = (front, front_kind, back, back_kind, print_reads)
        assert turns_on_sheet(paper_of(*case[:4]), side, print_reads) == expected, case


@pytest.mark.parametrize("side", ["front", "back", "either", "both"])
@pytest.mark.parametrize("host_side", ["front", "back"])
@pytest.mark.parametrize("host_turn", TURNS)
def test_a_piece_lies_in_a_cut_out_in_exactly_the_turns_in_which_it_reads_as_asked(side, host_side, host_turn):
    for front, front_kind, back, back_kind, print_reads in CASES:
        sheet = Leaf.printed(front, back)
        host = cut(sheet if host_side == "front" else sheet.over(), host_turn)
        views = {host_side: host, "back" if host_side == "front" else "front": host.over()}
        expected = {}
        for turn in TURNS:
            ahead, behind = cut(views["front"], turn), cut(views["back"], turn)
            on_front = reads_right(ahead.front, front_kind, print_reads)
            on_back = reads_right(behind.front, back_kind, print_reads)
            if side == "both":
                on_front = on_front and reads_right(ahead.over().front, back_kind, print_reads)
            if side != "back" and on_front:
                expected[turn] = "front"
            elif side in ("back", "either") and on_back:
                expected[turn] = "back"
        case = (front, front_kind, back, back_kind, print_reads)
        assert turns_in_cut_out(paper_of(*case[:4]), side, print_reads, host_side, host_turn) == expected, case


@pytest.mark.parametrize("host_side", ["front", "back"])
@pytest.mark.parametrize("side", ["front", "back"])
def test_a_piece_from_a_cut_out_is_the_piece_cut_from_the_sheet_in_its_turn_on_the_sheet(host_side, side):
    sheet = Leaf.printed("up", "left")
    views = {"front": sheet, "back": sheet.over()}
    for host_turn, turn in product(TURNS, TURNS):
        host = cut(views[host_side], host_turn)
        piece = cut(host if side == host_side else host.over(), turn)
        direct = cut(views[side], turn_on_sheet(host_side, host_turn, side, turn))
        assert (piece.front, piece.through) == (direct.front, direct.through)


@pytest.mark.parametrize(
    ("side", "missing"),
    [("front", None), ("either", None), ("back", "back"), ("both", "back")],
)
def test_a_side_that_the_paper_lacks_is_named_and_gives_no_turn(side, missing):
    bare = leaf()
    assert missing_side(bare, side) == missing
    assert bool(turns_on_sheet(bare, side, "up")) is (missing is None)
    assert bool(turns_in_cut_out(bare, side, "up", "front", 90)) is (missing is None)
    assert missing_side(leaf(back={}), side) is None
