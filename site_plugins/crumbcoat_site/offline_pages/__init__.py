"""MkDocs plugin: a built site can be installed, and is of use without a network."""
