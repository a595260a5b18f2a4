"""What changes a kit and its drafts. Each service is one transaction, checks who asks, and records what it did.

A change is made on the revision that was read, or not at all (RevisionMoved); a draft that would be no valid document
is refused with every reason (DraftRefused). Nothing is kept of a change that is not made.
"""

from kits.planning.services.accepting import finding_accept, finding_recall
from kits.planning.services.bringing import items_bring
from kits.planning.services.checks import draft_check
from kits.planning.services.history import draft_redo, draft_restore, draft_undo
from kits.planning.services.kits import kit_create, kit_replace
from kits.planning.services.mends import mend_apply
from kits.planning.services.months import calendar_renew, calendar_revoke, dates_set
from kits.planning.services.names import id_rename
from kits.planning.services.parts import part_forget, part_keep, part_use
from kits.planning.services.pictures import picture_remove, picture_set
from kits.planning.services.reviews import (
    comment_add,
    comment_answer,
    comment_assign,
    comment_reopen,
    comment_resolve,
    kit_hand_over,
    kit_take_back,
)
from kits.planning.services.test_builds import build_add_photos, build_record
from kits.planning.services.things import (
    kit_write,
    thing_add,
    thing_copy,
    thing_move,
    thing_remove,
    thing_write,
    things_add,
    values_change,
)
from kits.planning.services.values import PieceField, paper_take_over, piece_change

__all__ = [
    "PieceField",
    "build_add_photos",
    "build_record",
    "calendar_renew",
    "calendar_revoke",
    "comment_add",
    "comment_answer",
    "comment_assign",
    "comment_reopen",
    "comment_resolve",
    "dates_set",
    "draft_check",
    "draft_redo",
    "draft_restore",
    "draft_undo",
    "finding_accept",
    "finding_recall",
    "id_rename",
    "items_bring",
    "kit_create",
    "kit_hand_over",
    "kit_replace",
    "kit_take_back",
    "kit_write",
    "mend_apply",
    "paper_take_over",
    "part_forget",
    "part_keep",
    "part_use",
    "picture_remove",
    "picture_set",
    "piece_change",
    "thing_add",
    "thing_copy",
    "thing_move",
    "thing_remove",
    "thing_write",
    "things_add",
    "values_change",
]
