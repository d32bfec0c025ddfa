"""All inbreeding coefficients by sgkit, run in an environment of its own: it wants an older NumPy.

Reads the parents as JSON from stdin (two lists of places, -1 unknown), writes the middle time of
three runs in seconds of CPU, and the coefficients. The first run, which compiles, is not counted.
"""

from __future__ import annotations

import json
import statistics
import sys
import time


def main() -> None:
    """Time sgkit's compiled method on the pedigree from stdin."""
    import numpy as np
    import sgkit
    import xarray as xr

    dam, sire = json.load(sys.stdin)
    found = xr.Dataset({"parent": (("samples", "parents"), np.array([dam, sire]).T)})
    times = []
    for _ in range(4):
        started = time.process_time()
        values = sgkit.pedigree_inbreeding(found).stat_pedigree_inbreeding.values
        times.append(time.process_time() - started)
    json.dump({"seconds": statistics.median(times[1:]), "inbreeding": values.tolist()}, sys.stdout)


if __name__ == "__main__":
    main()
