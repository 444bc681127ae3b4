"""Replaces platform, which pint's parser would name its cache files by; it is never given a cache folder."""

import sys


def system() -> str:
    return "Emscripten"


def python_implementation() -> str:
    return sys.implementation.name


def python_version() -> str:
    return ".".join(map(str, sys.version_info[:3]))
