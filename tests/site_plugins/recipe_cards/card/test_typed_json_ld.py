"""What cards say to programs, by the typed definitions of schema.org (schema-dts) and the compiler of TypeScript."""

import json
from pathlib import Path

import pytest
from crumbcoat_site.calculators.node import node_command, run

from tests.site_plugins.recipe_cards.card.test_json_ld import FILES, ROOT, data_of

pytestmark = pytest.mark.no_cover  # Another program reads what is measured elsewhere.

MODULES = ROOT / "tests" / "scripts" / "node_modules"
OPTIONS = {
    "noEmit": True,
    "strict": True,
    "skipLibCheck": True,
    "module": "nodenext",
    "target": "es2022",
    "types": [],
    "paths": {"schema-dts": [str(MODULES / "schema-dts" / "dist" / "schema.d.ts")]},
}


def compiled(folder: Path, *recipes: object) -> str:
    """What the compiler says of recipes, all at once: it takes seconds to read the definitions."""
    lines = [
        f"export const recipe{place}: WithContext<Recipe> = {json.dumps(data)};" for place, data in enumerate(recipes)
    ]
    text = "\n".join(['import type { Recipe, WithContext } from "schema-dts";', *lines])
    (folder / "recipes.ts").write_text(text, encoding="utf-8")
    settings = {"compilerOptions": OPTIONS, "files": ["recipes.ts"]}
    (folder / "tsconfig.json").write_text(json.dumps(settings), encoding="utf-8")
    done = run(node_command(), MODULES / "typescript" / "bin" / "tsc", "-p", folder)
    assert done.returncode == int(bool(done.stdout)), done.stderr
    return str(done.stdout)


def test_cards_keep_to_the_types_of_schema_org(tmp_path: Path) -> None:
    assert compiled(tmp_path, *[data_of(path, version="2") for path in FILES]) == ""


def test_a_term_that_is_none_and_one_of_another_type_would_be_found(tmp_path: Path) -> None:
    recipe = {"@context": "https://schema.org", "@type": "Recipe", "name": "Veil"}
    author = {"@type": "Person", "name": "Mira Quill", "recipeYield": "2"}
    said = compiled(tmp_path, {**recipe, "author": author}, recipe, {**recipe, "recipeKategory": "x"})
    assert [line.partition("(")[2].partition(",")[0] for line in said.splitlines()] == ["2", "4"]
