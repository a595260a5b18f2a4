"""Renew the reference proofs: python -m tests.reference.renew_proofs [--same-engine]."""

from __future__ import annotations

import argparse
import sys

from tests.reference.reference_proofs import KEPT, NotRenewed, Proofs, kept_proofs, made_now, renewed


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.reference.renew_proofs", description=__doc__)
    parser.add_argument(
        "--same-engine",
        action="store_true",
        help="before the first release only: let answers change although the engine number does not",
    )
    options = parser.parse_args()
    kept = kept_proofs() if KEPT.exists() else Proofs(0, {})
    try:
        now = renewed(kept, made_now(), same_engine=options.same_engine)
    except NotRenewed as refusal:
        print(refusal.message, file=sys.stderr)
        return 1
    KEPT.write_text(now.to_json(), "utf-8")
    changed = sorted(name for name, hash_ in now.hashes.items() if kept.hashes.get(name) != hash_)
    print(f"engine {now.engine}: {', '.join(changed) or 'nothing'} renewed")
    return 0


if __name__ == "__main__":
    sys.exit(main())
