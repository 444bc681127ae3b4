"""`python -m crumbcoat_site.food_tables mascarpone` lists the foods of that name, as `crumbcoat foods` does."""

import sys

from crumbcoat_site.food_tables.listing import listing

if __name__ == "__main__":
    found = listing(" ".join(sys.argv[1:]))
    if not found:
        sys.exit("No food has that name.\n    Fix: try one word of it, in English or in French.")
    print(found)
