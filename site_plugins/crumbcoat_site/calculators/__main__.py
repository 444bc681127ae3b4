"""`python -m crumbcoat_site.calculators` makes the runtime ahead of a build, unless it is in the cache already."""

from pathlib import Path

from crumbcoat_site.calculators.artefacts import ArtefactError, artefacts
from crumbcoat_site.calculators.bundle import BundleError
from crumbcoat_site.calculators.config import CalculatorsConfig
from crumbcoat_site.calculators.node import NodeError

if __name__ == "__main__":
    try:
        runtime = artefacts(Path(CalculatorsConfig().cache))
    except (ArtefactError, BundleError, NodeError) as error:
        raise SystemExit(f"calculators: {error}") from None
    if runtime.untrimmed:
        print(f"calculators: {runtime.untrimmed}")
