"""MkDocs plug-in: a kitchen journal's look for a whole Material site. No card needs it."""
