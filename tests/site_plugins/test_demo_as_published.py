"""The demo site as published: nothing is missing, no link leads nowhere, and every header is that of the table."""

from pathlib import Path

from crumbcoat_site.publishing.running.crawl import check_published
from crumbcoat_site.publishing.running.findings import text_of
from crumbcoat_site.publishing.server import PublishedSite

from tests.hosts import serving


def test_the_demo_has_no_findings(site: tuple[Path, str]) -> None:
    with serving(PublishedSite(site[0])) as address:
        findings, files = check_published(address)
    assert findings == [], text_of(findings, files)
    assert files > 150
