"""The page for an address that is not there leads back to the recipes."""

import re
from pathlib import Path


def test_the_page_that_is_not_there_leads_to_the_front_page(site: tuple[Path, str]) -> None:
    page = (site[0] / "404.html").read_text(encoding="utf-8")
    article = re.search(r"<article.*?</article>", page, re.DOTALL)
    assert article
    assert "This page is not here" in article[0]
    links = re.findall(r'href="([^"]*)"', article[0])
    assert links == ["/."], "an address from the root: the page is shown at any depth"
