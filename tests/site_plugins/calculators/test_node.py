"""Which Node.js makes the runtime. The programs here are shell scripts that only print a version."""

import os
import sys
from pathlib import Path

import pytest
from crumbcoat_site.calculators.node import NodeError, node_command


@pytest.fixture
def machine(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A machine with one empty folder on its PATH, and a Python environment of its own without Node.js."""
    (tmp_path / "environment").mkdir()
    (tmp_path / "machine").mkdir()
    monkeypatch.setattr(sys, "executable", str(tmp_path / "environment" / "python"))
    monkeypatch.setenv("PATH", str(tmp_path / "machine"))
    return tmp_path


def program(folder: Path, version: str) -> str:
    command = folder / "node"
    command.write_text(f"#!{os.path.realpath('/bin/sh')}\necho {version}\n")
    command.chmod(0o755)
    return str(command)


def test_the_environment_comes_before_the_machine(machine: Path) -> None:
    of_the_machine = program(machine / "machine", "v20.0.0")
    assert node_command() == of_the_machine
    of_the_environment = program(machine / "environment", "v24.19.0")
    assert node_command() == of_the_environment


def test_without_node_the_error_names_what_to_do(machine: Path) -> None:
    with pytest.raises(NodeError, match=r"(?s)there is no Node\.js.*Fix: install Node\.js 20 or newer"):
        node_command()


def test_an_old_node_is_refused_with_its_version_and_place(machine: Path) -> None:
    command = program(machine / "machine", "v18.19.1")
    with pytest.raises(NodeError, match=rf"{command}, v18\.19\.1\) is too old\.\n    Fix: "):
        node_command()
