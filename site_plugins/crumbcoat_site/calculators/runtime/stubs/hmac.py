"""Stands in for hmac, of which pint's parser takes one function, to compare digests."""

from operator import eq as compare_digest  # noqa: F401
