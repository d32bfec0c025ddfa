"""Headings of papers that are filled in by hand."""

from __future__ import annotations

LOAN_HEADINGS = (
    "purpose: breeding, or holding only",
    "value of the animal",
    "mates allowed",
    "what is done with hybrids",
    "infertile eggs, dead young",
    "who picks first, and when",
    "housing and feeding",
    "vet: up to what cost, who decides, who pays",
    "death, theft, escape without fault; post-mortem",
    "transport and risk; insurance",
    "quarantine before and after, at both places",
    "records and photos, who gets them",
    "lending on, moving house",
    "early end; in what state it returns",
    "permits and marks of origin",
    "law and court",
)
"""What two keepers settle before a loan (common practice, no source)."""
