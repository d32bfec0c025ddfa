"""Values that know nothing of the record: units, quantities, days, codes, errors, sources.

Everything here may be used anywhere; nothing here imports from another room.
"""
