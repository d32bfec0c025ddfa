"""The sheets that are made for other people, and where a plugin's sections stand on a vet's."""

from __future__ import annotations

from enum import IntEnum, StrEnum

__all__ = ("Place", "Sheet", "SitterPlace")


class Sheet(StrEnum):
    """For whom a sheet is: a vet, a sitter, the next owner; or what to grab in an emergency."""

    VET = "vet"
    SITTER = "sitter"
    OWNER = "owner"
    EMERGENCY = "emergency"


class Place(IntEnum):
    """The `order` of a section on a vet's sheet: what is wrong first, then as a vet asks.

    After Cannon and Johnson, Handling and Nursing Reptiles (Australian Veterinary Association):
    housing, company and newcomers, diet, droppings, sheds, past illness. That signs, weight and
    food come before housing is common practice, no source.
    """

    WHY = 100
    WEIGHT = 200
    FOOD = 300
    DROPPINGS = 400
    SHEDS = 500
    HOUSING = 600
    CONTACTS = 700
    TREATMENT = 800
    BREEDING = 900
    QUESTIONS = 1000


class SitterPlace(IntEnum):
    """The `order` of a section on a sitter's sheet: whom to call, the days, how, what if."""

    CALL = 100
    DAYS = 200
    HOW = 300
    IF = 400
    NEVER = 500
    SIGNS = 600
    WHO = 700
    LAST = 800
