"""`python -m crumbcoat_site.calculators` makes the runtime ahead of a build, unless it is in the cache already.

With `--for-wheel` it also writes the folder that a wheel brings along.
"""

import sys
from pathlib import Path

from crumbcoat_site.calculators.artefacts import ArtefactError, artefacts, prepare_wheel
from crumbcoat_site.calculators.bundle import BundleError
from crumbcoat_site.calculators.config import CalculatorsConfig
from crumbcoat_site.calculators.node import NodeError

if __name__ == "__main__":
    try:
        runtime = artefacts(Path(CalculatorsConfig().cache))
        if "--for-wheel" in sys.argv[1:]:
            prepare_wheel(runtime)
    except (ArtefactError, BundleError, NodeError) as error:
        raise SystemExit(f"calculators: {error}") from None
    if runtime.drawback:
        print(f"calculators: {runtime.drawback}")
