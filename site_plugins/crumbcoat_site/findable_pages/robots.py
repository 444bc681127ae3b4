"""robots.txt, which names the sitemap."""

from urllib.parse import urlsplit

ROBOTS, SITEMAP = "robots.txt", "sitemap.xml"


def robots_txt(site_url: str) -> str | None:
    """The file; None for a site below another address, since crawlers read it only at the root of a host.

    Source:
        RFC 9309, section 2.3; the line `Sitemap` is that of sitemaps.org.

    >>> print(robots_txt("https://lantern.example/"), end="")
    User-agent: *
    Allow: /
    Sitemap: https://lantern.example/sitemap.xml
    >>> robots_txt("https://lantern.example/cards/") is None
    True
    """
    if urlsplit(site_url).path != "/":
        return None
    return f"User-agent: *\nAllow: /\nSitemap: {site_url}{SITEMAP}\n"
