"""Works out genotype chances in random families with pgmpy, for the test beside this file.

pgmpy is large, so it is not installed with the tests: `pip install pgmpy==1.1.2`, then
`python tests/reference/make_pgmpy_chances.py` writes pgmpy_chances.json anew. It knows nothing of
this project: genotypes, tables and evidence are written out here.
"""

from __future__ import annotations

import json
import random
from pathlib import Path

import pgmpy
from pgmpy.factors.discrete import TabularCPD
from pgmpy.inference import VariableElimination
from pgmpy.models import DiscreteBayesianNetwork

FREQUENCY = 0.2
FOUNDER = [(1 - FREQUENCY) ** 2, 2 * FREQUENCY * (1 - FREQUENCY), FREQUENCY**2]
HANDS_ON = (0.0, 0.5, 1.0)  # the allele, by copies of it


def family(draw: random.Random, loops: bool) -> list[dict]:
    """Animals with dam, sire and looks; with loops, parents come from all before."""
    rows: list[dict] = []
    for n in range(12):
        dam = sire = None
        if n >= 4:
            near = range(n) if loops else range(max(0, n - 4), n)
            females, males = ([p for p in near if p % 2 == sex] for sex in (1, 0))
            dam, sire = draw.choice(females), draw.choice(males)
        rows.append({"id": n, "dam": dam, "sire": sire, "looks": ""})
    return rows


def looks(draw: random.Random, rows: list[dict]) -> None:
    """Give six of ten animals the looks of genotypes that are drawn, so that they can be."""
    copies: list[int] = []
    for row in rows:
        if row["dam"] is None:
            copies.append(sum(draw.random() < FREQUENCY for _ in "ab"))
        else:
            parents = (copies[row["dam"]], copies[row["sire"]])
            copies.append(sum(draw.random() < HANDS_ON[c] for c in parents))
        if draw.random() < 0.6:
            row["looks"] = "visual" if copies[-1] == 2 else "normal"


def chances(rows: list[dict]) -> list[list[float]]:
    """No copy, one and two, of each animal."""
    model = DiscreteBayesianNetwork()
    model.add_nodes_from([f"g{r['id']}" for r in rows] + [f"look{r['id']}" for r in rows])
    for row in rows:
        name = f"g{row['id']}"
        model.add_edge(name, f"look{row['id']}")
        model.add_cpds(TabularCPD(f"look{row['id']}", 2, [[1, 1, 0], [0, 0, 1]], [name], [3]))
        if row["dam"] is None:
            model.add_cpds(TabularCPD(name, 3, [[p] for p in FOUNDER]))
            continue
        parents = [f"g{row['dam']}", f"g{row['sire']}"]
        model.add_edges_from([(p, name) for p in parents])
        model.add_cpds(TabularCPD(name, 3, _mendel(), parents, [3, 3]))
    seen = {f"look{r['id']}": int(r["looks"] == "visual") for r in rows if r["looks"]}
    reckoned = VariableElimination(model)
    return [
        [
            float(p)
            for p in reckoned.query([f"g{r['id']}"], evidence=seen, show_progress=False).values
        ]
        for r in rows
    ]


def _mendel() -> list[list[float]]:
    pairs = [(a, b) for a in HANDS_ON for b in HANDS_ON]
    return [
        [(1 - a) * (1 - b) for a, b in pairs],
        [a * (1 - b) + b * (1 - a) for a, b in pairs],
        [a * b for a, b in pairs],
    ]


def main() -> None:
    """Write the file."""
    draw = random.Random(20)
    families = []
    for n in range(12):
        rows = family(draw, loops=n % 2 == 0)
        looks(draw, rows)
        families.append({"animals": rows, "chances": chances(rows)})
    whole = {
        "made_with": f"pgmpy {pgmpy.__version__}",
        "frequency": FREQUENCY,
        "families": families,
    }
    Path(__file__).with_name("pgmpy_chances.json").write_text(json.dumps(whole, indent=1) + "\n")


if __name__ == "__main__":
    main()
