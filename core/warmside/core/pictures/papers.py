"""Whether a PDF is whole, as far as its frame tells; it is kept byte for byte and never run.

Structure: ISO 32000-1:2008, 7.5.2 (header), 7.5.4 (cross-reference table), 7.5.5 (trailer).
"""

from __future__ import annotations

import re

from warmside.core.values.errors import BadInput
from warmside.core.values.hints import quoted

TAIL_BYTES = 1024  # the end-of-file mark stands within them: annex H, note 18
START = re.compile(rb"startxref\s+(\d{1,12})\s+%%EOF")
TABLE = re.compile(rb"\s*(xref\b|\d{1,10}\s+\d{1,5}\s+obj\b)")


def check_paper(raw: bytes, name: str) -> None:
    """Raise BadInput where the file does not end as a PDF does, or its table is not where it says.

    That finds one that was cut off; what stands on its pages is not looked at.
    """
    said = START.findall(raw[-TAIL_BYTES:])
    if not said or not TABLE.match(raw, int(said[-1])):
        raise BadInput(
            f"{quoted(name)} is no whole PDF: its end is missing; copy or download it again"
        )
