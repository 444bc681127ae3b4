"""The `findable_pages` plug-in: feeds, the sitemap, robots.txt, and where a page is in its site."""
