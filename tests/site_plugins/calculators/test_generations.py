"""The cache of the runtime, with several builds at once and after one that was stopped."""

import os
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from crumbcoat_site.calculators.generations import KEPT, UNSTARTED, is_kept, make_room, put


def generation(folder: Path, by: str) -> Path:
    folder.mkdir(parents=True)
    (folder / "manifest.json").write_text(by)
    return folder


def test_the_oldest_generation_makes_room(tmp_path: Path) -> None:
    oldest, *others = [generation(tmp_path / f"{number:016x}", "a") for number in range(KEPT + 1)]
    for number, folder in enumerate((oldest, *others)):
        os.utime(folder, (number, number))
    make_room(tmp_path)
    assert set(tmp_path.iterdir()) == set(others)


def test_a_generation_that_is_found_counts_as_used(tmp_path: Path) -> None:
    folder = generation(tmp_path / "0", "a")
    os.utime(folder, (0, 0))
    assert is_kept(folder)
    assert folder.stat().st_mtime > 0


def test_builds_that_make_room_at_once_do_not_disturb_each_other(tmp_path: Path) -> None:
    for number in range(300):
        generation(tmp_path / f"{number:016x}", "a")
    with ThreadPoolExecutor(8) as builds:
        list(builds.map(make_room, [tmp_path] * 8))
    assert len(list(tmp_path.iterdir())) == KEPT


def test_of_builds_that_make_the_same_one_is_kept(tmp_path: Path) -> None:
    made = [generation(tmp_path / ".making" / str(number), str(number)) for number in range(8)]
    with ThreadPoolExecutor(8) as builds:
        list(builds.map(put, made, [tmp_path / "0"] * 8))
    assert is_kept(tmp_path / "0")
    assert len([one for one in made if one.exists()]) == 7


def test_a_generation_that_is_half_deleted_is_replaced(tmp_path: Path) -> None:
    (tmp_path / "0").mkdir()
    (tmp_path / "0" / "memory.bin").write_text("left")
    assert not is_kept(tmp_path / "0")
    put(generation(tmp_path / ".made", "a"), tmp_path / "0")
    assert is_kept(tmp_path / "0")
    assert [path.name for path in tmp_path.iterdir()] == ["0"]


def test_one_whose_trimmed_file_did_not_start_is_made_again(tmp_path: Path) -> None:
    (generation(tmp_path / "0", "first") / UNSTARTED).write_text("killed")
    assert not is_kept(tmp_path / "0")
    put(generation(tmp_path / ".made", "second"), tmp_path / "0")
    assert is_kept(tmp_path / "0")
    assert (tmp_path / "0" / "manifest.json").read_text() == "second"
