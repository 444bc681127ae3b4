"""Texts of files that somebody else named and wrote. ECMA-48 is why a name may not have ESC."""

from pathlib import Path

import pytest
from crumbcoat_site.recipe_cards.source.file_text import text_of
from crumbcoat_site.recipe_cards.source.source_errors import SourceError


@pytest.mark.parametrize("name", ["a\x1b[2J.yaml", "a\n  Evil: 1.yaml", "a\u202elmay.yaml", "a\udcff.yaml"])
def test_a_name_with_signs_for_a_terminal_is_refused_and_not_shown(tmp_path: Path, name: str) -> None:
    (tmp_path / name).write_text("title: Veil\n", encoding="utf-8")
    with pytest.raises(SourceError) as refused:
        text_of(tmp_path / name, name)
    assert refused.value.file.replace("?", "").isascii()
    assert "\n" not in refused.value.file
    assert refused.value.problem.startswith("the path has a character that cannot be shown, U+")
    assert refused.value.remedy == "give the file, or the folder, another name"


def test_letters_of_any_script_are_a_name(tmp_path: Path) -> None:
    (tmp_path / "crème 日本.yaml").write_text("title: Veil\n", encoding="utf-8")
    assert text_of(tmp_path / "crème 日本.yaml", "crème 日本.yaml") == "title: Veil\n"
