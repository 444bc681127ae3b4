"""`python -m crumbcoat_site.reference` writes the reference pages."""

from crumbcoat_site.reference.pages import write_pages

for file in write_pages():
    print(file)
