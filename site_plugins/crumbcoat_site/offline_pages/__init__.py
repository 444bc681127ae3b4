"""MkDocs plug-in: a built site can be installed, and its visited pages work offline."""
