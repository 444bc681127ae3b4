"""MkDocs plug-in: recipe files become pages, each with a card.json next to it."""
