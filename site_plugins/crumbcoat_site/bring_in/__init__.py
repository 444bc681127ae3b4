"""Saved web pages with recipes in the terms of schema.org -> drafts of recipe files. No network is used."""
