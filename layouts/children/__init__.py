"""Child processes: work that may crash, hang or grow without harm to anyone, and that never outlives its parent.

`watch` is the parent's side, `inside` the child's. Both speak in messages: bytes of which an `end` function tells where
the first one ends.
"""
