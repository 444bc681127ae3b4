"""The scripts and the style sheet, in a folder named for their content: a page never meets those of another build."""

import hashlib
import json
from pathlib import Path

from site_plugins.calculators.artefacts import Artefacts

ASSETS = Path(__file__).parent / "theme" / "assets" / "calculators"


def assets(runtime: Artefacts) -> dict[str, bytes]:
    """The files of `theme/assets/calculators` and `manifest.js`, the runtime's list of files as a module, by place."""
    content = {path.name: path.read_bytes() for path in sorted(ASSETS.iterdir()) if path.is_file()}
    listed = json.dumps({"folder": f"../../runtime/{runtime.digest}/", **runtime.manifest}, sort_keys=True)
    content["manifest.js"] = f"export default {listed};\n".encode()
    whole = hashlib.sha256(b"\0".join(name.encode() + b"\0" + content[name] for name in sorted(content)))
    return {f"assets/calculators/{whole.hexdigest()[:12]}/{name}": content[name] for name in sorted(content)}
