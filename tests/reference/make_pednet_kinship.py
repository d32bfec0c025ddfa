"""Works out inbreeding and kinship in random pedigrees with PedNet, for the test beside this file.

PedNet is not installed with the tests: `pip install pednet==2.1.0`, then
`python tests/reference/make_pednet_kinship.py` writes pednet_kinship.json anew. It knows nothing of
this project: pedigrees are drawn here.
"""

from __future__ import annotations

import json
import random
from pathlib import Path

import pednet

ANIMALS, FOUNDERS, PEDIGREES, LAST = 36, 6, 6, 6


def drawn(draw: random.Random) -> list[tuple[int, int | None, int | None]]:
    """Id, dam and sire; odd ones are female; some have one parent alone, or none."""
    rows: list[tuple[int, int | None, int | None]] = []
    for id in range(ANIMALS):
        dam = sire = None
        if id >= FOUNDERS:
            near = range(max(0, id - 12), id)
            dam = draw.choice([p for p in near if p % 2]) if draw.random() < 0.95 else None
            sire = draw.choice([p for p in near if not p % 2]) if draw.random() < 0.95 else None
        rows.append((id, dam, sire))
    return rows


def worked_out(rows: list[tuple[int, int | None, int | None]]) -> dict[str, object]:
    """The pedigree with each animal's F, and the kinship of the last ones with all."""
    name = {None: "0"} | {id: f"a{id}" for id, _, _ in rows}
    theirs = pednet.pedigree_from_rows(
        [(name[id], name[sire], name[dam], 2 if id % 2 else 1, 0) for id, dam, sire in rows]
    )
    ids, matrix = pednet.kinship_matrix(theirs, x_linked=False)
    place = {word: n for n, word in enumerate(ids)}
    inbreeding = pednet.inbreeding(theirs)
    return {
        "animals": [{"id": i, "dam": d, "sire": s} for i, d, s in rows],
        "inbreeding": [float(inbreeding[f"a{n}"]) for n in range(ANIMALS)],
        "kinship": {
            str(i): [float(matrix[place[f"a{i}"]][place[f"a{j}"]]) for j in range(ANIMALS)]
            for i in range(ANIMALS - LAST, ANIMALS)
        },
    }


if __name__ == "__main__":
    made = [worked_out(drawn(random.Random(seed))) for seed in range(PEDIGREES)]
    out = {"pednet": pednet.__version__, "pedigrees": made}
    path = Path(__file__).with_name("pednet_kinship.json")
    path.write_text(json.dumps(out, indent=None, separators=(",", ":")) + "\n", encoding="utf-8")
