"""Replaces hmac, of which pint's parser uses one function to compare digests."""

from operator import eq as compare_digest  # noqa: F401
