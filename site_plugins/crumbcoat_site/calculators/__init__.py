"""MkDocs plug-in: what a reader's browser needs to run the calculators, made once and kept."""
