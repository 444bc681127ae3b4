"""The reference of what a host sends with a site, from the table that the files for hosts are written from."""

from collections.abc import Iterator, Mapping

from crumbcoat_site.publishing.hosts.headers_file import MOST_EMBEDS
from crumbcoat_site.publishing.policy import DIRECTIVES
from crumbcoat_site.publishing.table import ASK, COMPRESSED, FEEDS, FOR_EVER, HEADERS, NEVER, TYPES
from crumbcoat_site.reference.markdown import page, table

INTRO = """
The plug-in `publishing` writes what a host needs to send your site as below, and `crumbcoat serve --as-published`
shows the finished site in this way on your own machine. `crumbcoat check --published https://your-site.example/`
fetches every page and file of the published site and reports, each with its place and a fix: missing files, links and
anchors that lead nowhere, wrong types, a missing or looser security policy, caches, and what is not compressed.
"""

_HOSTS = """
Set `host` of `publishing` in `mkdocs.yml`, and `site_url` to the address of the site. Below a path, such as
`https://example.org/creams/`, `site_url` has that path, and the rules begin with it.

| `host` | for | `crumbcoat build` writes |
| --- | --- | --- |
| `headers` | hosts of static sites that read a file of headers | `_headers` |
| `apache` | Apache 2.4 with `AllowOverride All` | `.htaccess` |
| `nginx` | nginx | `nginx.conf`: put `include /path/to/site/nginx.conf;` into the `server` block |
| `pages` | the pages of a forge, and hosts that send no headers of yours | the policy into each page, and `.nojekyll` |

A new site has `host: pages` and a workflow in `.github/workflows/site.yml` that checks, builds and publishes it. Such a
host has its own caches, mostly of ten minutes, and does not forbid frames; `crumbcoat check --published` warns of that.

Build and upload the whole site each time: the policy has a digest of each inline script and style, and so fits one
build. If your docs folder has such a file of its own, yours stays. Whether browsers insist on `https`
(`Strict-Transport-Security`) is left to the host, since it holds for other sites of the same name too.
"""

_POLICY = """
One policy for all pages, since pages that the theme swaps in place run under the policy of the first one. There is no
`'unsafe-inline'` and no `'unsafe-eval'`. `crumbcoat build` warns about what it refuses in your pages: attributes such
as `onclick`, and pictures, videos or fonts of other sites. `allow` of `publishing` adds a site:
`allow: {frame-src: [https://video.example]}`.
"""

_WHY: Mapping[str, str] = {
    "default-src": "nothing that is not named below",
    "script-src": "scripts of the site, a digest for each inline script (the theme has some), and WebAssembly: Python "
    "in the browser is that",
    "style-src": "style sheets of the site, and a digest for each inline style. Where a page has `style` attributes, "
    "as pictures have for the colour of their place, `'unsafe-hashes'` with a digest allows these texts alone",
    "img-src": "pictures of the site; the theme's icons are `data:` addresses in its style sheet",
    "media-src": "sound and video of the site",
    "font-src": "fonts of the site",
    "connect-src": "what scripts fetch: the runtime, other pages, the search index",
    "worker-src": "Python, the search and the service worker",
    "manifest-src": "what makes the site installable",
    "base-uri": "no page changes where its addresses lead",
    "form-action": "no form is sent anywhere; scripts read the fields",
    "frame-ancestors": "no page is shown in a frame, except a card's page `embed/`: see below",
}

_FRAMES = f"""
With `embed: true` a card's page `embed/` is made to be shown in a frame by any site, and no other page is. Without
it, recipes that pages of this site show [whole](posts.md#a-whole-card-in-any-page) have such a page as well, for this
site alone: read `'self'` in the place of `*` below. Where pages have whole cards or frames of the site itself,
`frame-src 'self'` comes with the policy of all.

| `host` | a card's page `embed/` | all other pages |
| --- | --- | --- |
| `apache`, `nginx` | `frame-ancestors *` | `frame-ancestors 'none'` |
| `headers` | `frame-ancestors *`, in a rule for each card | `X-Frame-Options: DENY` |
| `pages` | nothing forbids it | nothing forbids it: a page cannot say so itself |

In a file `_headers` a rule cannot take back what another one says. So on a site with such cards the rule for all pages
has `X-Frame-Options` instead of `frame-ancestors`; browsers pass over it where the policy of a page has
`frame-ancestors`, as that of a card has. It makes no difference whether a host sends the policies of both rules or that
of the closer one. Some hosts read no more than 100 rules: from {MOST_EMBEDS + 1} such cards on, all pages allow frames.

A host with rules of its own, such as a form in its settings, needs the same: `frame-ancestors *` in the policy of
`embed/`, and neither `X-Frame-Options` nor another `frame-ancestors` that counts there. `crumbcoat check --published`
reports a card that other sites cannot show.
"""

_FILES = """
Nothing is shared across origins: no `Access-Control-Allow-Origin` is sent. A page of another site that shows a card
does so in a frame, with a plain script.
"""


def publishing_page() -> str:
    """The page as Markdown."""
    return page("Publishing", "What a host sends with each file", INTRO, *_sections())


def _sections() -> Iterator[str]:
    yield "## Hosts"
    yield _HOSTS
    yield "## Security policy"
    yield _POLICY
    rows = [(f"`{name}`", f"`{' '.join(sources)}`", _WHY[name]) for name, sources in DIRECTIVES.items()]
    yield table(("directive", "sources", "what for"), rows)
    yield "## Cards in frames"
    yield _FRAMES
    yield "## Headers of every file"
    yield table(("header", "value"), [(f"`{name}`", f"`{value}`") for name, value in HEADERS.items()])
    yield _FILES
    yield "## Caches"
    caches = [
        (
            "with a digest in the address, below `assets/`",
            f"`{FOR_EVER}`",
            "a year: another content has another address",
        ),
        ("all others: pages, feeds, `card.json`", f"`{ASK}`", "the browser asks whether it has changed"),
        ("`sw.js`, the service worker", f"`{NEVER}`", "never without asking: it decides which files an open site has"),
    ]
    yield table(("files", "Cache-Control", "kept"), caches)
    yield "## Types and compression"
    kinds: dict[str, list[str]] = {}
    for ending, kind in TYPES.items():
        kinds.setdefault(kind, []).append(f"`.{ending}`")
    for name, kind in FEEDS.items():
        kinds.setdefault(kind, []).append(f"`{name}`")
    packed = {kind: "yes" if kind.partition(";")[0] in COMPRESSED else "no" for kind in kinds}
    yield table(
        ("files", "type", "compressed"),
        [(", ".join(names), f"`{kind}`", packed[kind]) for kind, names in kinds.items()],
    )
