"""How long genotype chances of 60 animals at 3 loci take, against pgmpy's variable elimination.

pgmpy is not among the project's own dependencies: install it to run this.
"""

from __future__ import annotations

import random
import time

import pytest
from tests.bench.measured import hold, medians

from random_pedigrees import mixed
from warmside.plugins.genes.inheritance.facts import Candidates, Fact, Member, looks
from warmside.plugins.genes.inheritance.group import Group
from warmside.plugins.genes.inheritance.loci import Allele, Locus, Shows
from warmside.plugins.genes.inheritance.model import Family, Model
from warmside.plugins.lineage.kinship.pedigree import Pedigree

SHARE = 0.3
LOCI = tuple(Locus(f"l{n}", (Allele(f"l{n}", Shows.RECESSIVE),)) for n in range(3))


def family(known: Pedigree) -> Family:
    """Half of the animals are seen, as the genotypes that are drawn for them let them look."""
    draw = random.Random(5)
    members = tuple(
        Member(n, "unknown", _of(dam), _of(sire))
        for n, (dam, sire) in enumerate(zip(known.dam, known.sire, strict=True))
    )
    facts = tuple(fact for locus in LOCI for fact in _seen(known, locus, draw))
    return Family(
        members,
        tuple(Group((x,)) for x in LOCI),
        facts,
        (),
        {x.name: {x.name: SHARE} for x in LOCI},
    )


def _of(parent: int) -> Candidates:
    return Candidates({parent: 1.0}) if parent >= 0 else Candidates()


def _seen(known: Pedigree, locus: Locus, draw: random.Random) -> list[Fact]:
    copies: list[int] = []
    facts = []
    for n in range(len(known.ids)):
        chances = [SHARE if p < 0 else copies[p] / 2 for p in known.parents(n)]
        copies.append(sum(draw.random() < c for c in chances))
        if draw.random() < 0.5:
            facts.append(looks(n, locus, locus.name if copies[-1] == 2 else "normal"))
    return facts


@pytest.mark.filterwarnings("ignore::FutureWarning")  # of pgmpy about itself
def test_all_chances_of_sixty_animals() -> None:
    pytest.importorskip("pgmpy")
    known = mixed(60)
    whole = family(known)
    queries = _pgmpy_queries(known, whole)

    def ours() -> object:
        model = Model(whole)
        return [model.genotypes(n, x.name) for n in range(60) for x in LOCI]

    ours_s, theirs_s = medians(
        ours, lambda: [query() for query in queries], runs=3, clock=time.process_time
    )
    hold("chances of 60 animals", ours_s / theirs_s, 0.1, "times pgmpy's variable elimination")


def _pgmpy_queries(known: Pedigree, whole: Family) -> list:
    """A query for each animal and locus; the networks are built beforehand."""
    from pgmpy.factors.discrete import TabularCPD
    from pgmpy.inference import VariableElimination
    from pgmpy.models import DiscreteBayesianNetwork

    half = (0.0, 0.5, 1.0)
    pairs = [(a, b) for a in half for b in half]
    mendel = [
        [(1 - a) * (1 - b) for a, b in pairs],
        [a * (1 - b) + b * (1 - a) for a, b in pairs],
        [a * b for a, b in pairs],
    ]
    founder = [[(1 - SHARE) ** 2], [2 * SHARE * (1 - SHARE)], [SHARE**2]]
    queries = []
    for locus in LOCI:
        model = DiscreteBayesianNetwork()
        for n in range(len(known.ids)):
            name, parents = f"g{n}", [f"g{p}" for p in known.parents(n) if p >= 0]
            model.add_node(name)
            model.add_edges_from([(p, name) for p in parents])
            sizes = [3] * len(parents)
            table = mendel if parents else founder
            model.add_cpds(TabularCPD(name, 3, table, parents or None, sizes or None))
            model.add_edge(name, f"look{n}")
            model.add_cpds(TabularCPD(f"look{n}", 2, [[1, 1, 0], [0, 0, 1]], [name], [3]))
        seen = {
            f"look{f.animal}": int("normal" not in f.words)
            for f in whole.facts
            if f.locus == locus.name
        }
        solver = VariableElimination(model)
        queries += [
            lambda n=n, s=solver, e=seen: s.query([f"g{n}"], evidence=e, show_progress=False)
            for n in range(len(known.ids))
        ]
    return queries
