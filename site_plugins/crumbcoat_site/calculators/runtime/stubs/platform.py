"""Stands in for platform, by which pint's parser would name its cache files; nobody gives it a cache folder."""

import sys


def system():
    return "Emscripten"


def python_implementation():
    return sys.implementation.name


def python_version():
    return ".".join(map(str, sys.version_info[:3]))
