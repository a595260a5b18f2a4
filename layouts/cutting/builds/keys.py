"""Multisets of pieces as numbers: a field of bits for each kind, so that adding numbers adds multisets.

A field has one bit more than its greatest count needs. Where a count is too high, adding what is lacking to the full
field sets that bit, so that one look at all of them says whether two builds have more pieces together than are wanted.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from layouts.cutting.builds.arrays import Hashes, Ints, Marks

__all__ = ["Keys"]

_BITS = 62
# The factor of the hash for each further word: odd, with bits everywhere (the golden ratio in 64 bits, to the powers).
_FACTOR = 0x9E3779B97F4A7C15


class Keys:
    """The keys for so many copies of each kind: arrays whose last axis is `words` long."""

    def __init__(self, copies: Sequence[int]) -> None:
        fields: list[tuple[int, int, int, int]] = []
        word = shift = 0
        for number in copies:
            bits = number.bit_length() + 1
            if shift + bits > _BITS:
                word, shift = word + 1, 0
            fields.append((word, shift, bits, number))
            shift += bits
        self.words = word + 1
        self._fields = fields
        self.full: Ints = np.zeros(self.words, np.int64)
        self._lacking: Ints = np.zeros(self.words, np.int64)
        self._guards: Ints = np.zeros(self.words, np.int64)
        for at, start, bits, number in fields:
            self.full[at] += number << start
            self._lacking[at] += ((1 << (bits - 1)) - 1 - number) << start
            self._guards[at] |= 1 << (start + bits - 1)
        self._factors: Hashes = np.array([pow(_FACTOR, at, 1 << 64) for at in range(self.words)], np.uint64)

    def __len__(self) -> int:
        """How many kinds there are."""
        return len(self._fields)

    def has(self, keys: Ints, kind: int) -> Marks:
        """Which of these multisets have a piece of this kind."""
        word, shift, bits, _ = self._fields[kind]
        return np.asarray(keys[..., word] & (((1 << bits) - 1) << shift) != 0)

    def wants(self, taken: Ints, kind: int) -> bool:
        """Whether more pieces of this kind are wanted than a multiset has."""
        word, shift, bits, number = self._fields[kind]
        return int(taken[word]) >> shift & ((1 << bits) - 1) < number

    def of_one(self, kind: int) -> Ints:
        """The key of a single piece."""
        key = np.zeros(self.words, np.int64)
        word, shift, _, _ = self._fields[kind]
        key[word] = 1 << shift
        return key

    def go_together(self, first: Ints, second: Ints) -> Marks:
        """Whether two multisets together have no more pieces of any kind than are wanted."""
        together: Marks = ((first + second + self._lacking) & self._guards) == 0
        return together[..., 0] if self.words == 1 else together.all(axis=-1)

    def hashed(self, keys: Ints) -> Hashes:
        """One number for each key, which adds up as keys do; equal keys have equal ones, and rarely others."""
        if self.words == 1:
            return keys[..., 0].astype(np.uint64)
        return (keys.astype(np.uint64) * self._factors).sum(axis=-1, dtype=np.uint64)
