"""The scripts and the style sheet, in a folder named for their content: a page never meets those of another build."""

import hashlib
import json
from pathlib import Path

from crumbcoat_site.calculators.artefacts import Artefacts
from crumbcoat_site.minified import minified

ASSETS = Path(__file__).parent / "theme" / "assets" / "calculators"


def assets(runtime: Artefacts) -> dict[str, bytes]:
    """The files of `theme/assets/calculators` and `manifest.js`, the runtime's list of files as a module, by place."""
    content = {path.name: minified(path.name, path.read_text(encoding="utf-8")) for path in sorted(ASSETS.iterdir())}
    listed = json.dumps({"folder": f"../../runtime/{runtime.digest}/", **runtime.manifest}, sort_keys=True)
    content["manifest.js"] = minified("manifest.js", f"export default {listed};")
    whole = hashlib.sha256(b"\0".join(name.encode() + b"\0" + content[name] for name in sorted(content)))
    return {f"assets/calculators/{whole.hexdigest()[:12]}/{name}": content[name] for name in sorted(content)}
