"""The scripts and the style sheet, in a folder named for their content: a page never gets those of another build."""

import hashlib
import json
from dataclasses import dataclass
from pathlib import Path

from crumbcoat_site.calculators.artefacts import Artefacts
from crumbcoat_site.minified import minified

ASSETS = Path(__file__).parent / "theme" / "assets" / "calculators"


@dataclass(frozen=True, slots=True)
class Assets:
    """The files by name, and the folder of the site that they go into."""

    folder: str
    content: dict[str, bytes]

    @property
    def script(self) -> str:
        """The place of the script that every page loads."""
        return f"{self.folder}/calculator.js"

    @property
    def style(self) -> str:
        """The place of the style sheet."""
        return f"{self.folder}/calculators.css"


def assets(runtime: Artefacts) -> Assets:
    """The files of `theme/assets/calculators`, and `manifest.js`, the runtime's list of files as a module."""
    content = {path.name: minified(path.name, path.read_text(encoding="utf-8")) for path in sorted(ASSETS.iterdir())}
    listed = json.dumps({"folder": f"../../runtime/{runtime.digest}/", **runtime.manifest}, sort_keys=True)
    content["manifest.js"] = minified("manifest.js", f"export default {listed};")
    digest = hashlib.sha256(b"\0".join(name.encode() + b"\0" + content[name] for name in sorted(content)))
    return Assets(f"assets/calculators/{digest.hexdigest()[:12]}", content)
