"""`python -m crumbcoat_site.food_tables mascarpone` lists kinds and foods of that name, as `crumbcoat foods` does."""

import sys

from crumbcoat_site.food_tables.listing import listing, nearest

if __name__ == "__main__":
    words = " ".join(sys.argv[1:])
    found = listing(words)
    if not found:
        sys.exit(f"No food has that name.\n    Fix: {nearest(words)}")
    print(found)
