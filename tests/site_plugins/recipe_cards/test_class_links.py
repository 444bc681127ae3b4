"""QR codes of links for phones, as the browser makes them: module by module those of segno (ISO/IEC 18004)."""

import json
import re

import pytest
import segno
from crumbcoat_site.calculators.node import node_command, run
from crumbcoat_site.recipe_cards.build.assets import assets

FULL = {4: 62, 8: 152, 14: 362}
"""How many bytes fill a code of a version at level M (ISO/IEC 18004:2015, table 7).

Only full ones are compared: segno writes a byte of zeros before the padding, which no reader looks at.
"""

LINK = "https://lantern.example/kitchen/{}/#bench&factor=2.5&group=3"
LINKS = [LINK.format("x" * (length - len(LINK) + 2)) for length in FULL.values()]
SCRIPT = """const { codePath } = await import(process.argv[1]);
console.log(JSON.stringify(JSON.parse(process.argv[2]).map(codePath)));"""


@pytest.fixture(scope="module")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> list[dict[str, object]]:
    """What the scripts as they are published give for each link."""
    folder = tmp_path_factory.mktemp("scripts")
    (folder / "package.json").write_text('{"type": "module"}', encoding="utf-8")
    for place, content in assets().content.items():
        (folder / place.rpartition("/")[2]).write_bytes(content)
    script = (folder / "class_links.js").as_uri()
    done = run(node_command(), "--input-type=module", "-e", SCRIPT, script, json.dumps(LINKS), cwd=folder)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


@pytest.mark.parametrize("number", range(len(LINKS)))
def test_a_code_is_that_of_segno_with_one_of_the_eight_masks(drawn: list[dict[str, object]], number: int) -> None:
    size, path = int(str(drawn[number]["size"])), str(drawn[number]["path"])
    modules = [[0] * size for _ in range(size)]
    for x, y, wide in re.findall(r"M(\d+) (\d+)h(\d+)v1H\1z", path):
        for at in range(int(x), int(x) + int(wide)):
            assert modules[int(y)][at] == 0
            modules[int(y)][at] = 1
    version = (size - 17) // 4
    assert version == list(FULL)[number]
    codes = [
        segno.make(LINKS[number], version=version, error="M", mask=mask, mode="byte", boost_error=False, micro=False)
        for mask in range(8)
    ]
    assert modules in [[[*row] for row in code.matrix] for code in codes]
