"""Whether pieces can be cut from sheets, decided by enumerating builds from below.

A *build* is a multiset of pieces with a box that it fills by cuts from edge to edge. Two builds joined make a larger
one, so joining from single pieces on makes every plan there is. What keeps their number small are prices of the pieces
(`valuing`): at good prices all sheets together are worth hardly more than the pieces, so that a build which wastes too
much, itself or beside it, cannot be part of any plan (`bars`). What is left is joined round by round (`joining`,
`passing`) until a whole plan can be put together (`assembling`) or nothing is left to join, which proves that there is
none. `deciding` says what is tried in which order. Everything is counted in whole numbers, and every budget in steps,
so that the answer is the same on every machine.

It runs in the child process alone, where numpy and its memory can do no harm.
"""
