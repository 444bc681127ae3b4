"""MkDocs plug-in: recipe files become pages, each with a card.json beside it."""
