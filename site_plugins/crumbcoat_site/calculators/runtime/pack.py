"""Runs in Pyodide: its last value packs JavaScript's bytes, the memory image, into a Zstandard frame."""

from compression.zstd import CompressionParameter, compress  # type: ignore[import-not-found]  # It is in Python 3.14.

OPTIONS = {
    CompressionParameter.compression_level: 22,
    CompressionParameter.window_log: 25,
    CompressionParameter.checksum_flag: True,
}

lambda content: compress(content.to_py(), options=OPTIONS)
