#!/usr/bin/env python3
"""Every link inside the built book leads to a page and a place that are there. Standard library only."""

import sys
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlparse

HTML = Path(__file__).resolve().parents[2] / "target/book/html"


class Page(HTMLParser):
    def __init__(self):
        super().__init__()
        self.links, self.places = [], set()

    def handle_starttag(self, _, attributes):
        found = dict(attributes)
        if found.get("id"):
            self.places.add(found["id"])
        for key in ("href", "src"):
            if found.get(key):
                self.links.append(found[key])


def main():
    pages = {}
    for file in HTML.rglob("*.html"):
        page = Page()
        page.feed(file.read_text())
        pages[file] = page
    if len(pages) < 20:
        sys.exit(f"book: only {len(pages)} pages in {HTML}")
    wrong, seen = [], 0
    for file, page in pages.items():
        if file.name in ("404.html", "toc.html"):
            continue
        for link in page.links:
            parts = urlparse(link)
            if parts.scheme in ("data", "javascript"):
                continue
            seen += 1
            if parts.scheme or parts.netloc:
                wrong.append(f"{file.relative_to(HTML)}: {link} leads out of the book")
                continue
            target = file if not parts.path else (file.parent / unquote(parts.path)).resolve()
            if not target.is_file():
                wrong.append(f"{file.relative_to(HTML)}: {link} is not there")
            elif parts.fragment and target in pages:
                if unquote(parts.fragment) not in pages[target].places:
                    wrong.append(f"{file.relative_to(HTML)}: {link} has no such place")
    if wrong:
        sys.exit("book: links that lead nowhere:\n" + "\n".join(sorted(set(wrong))))
    print(f"book: {len(pages)} pages, {seen} links hold")


if __name__ == "__main__":
    main()
