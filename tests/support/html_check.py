"""Tell what keeps a page from being well-formed and self-contained; "sound" if nothing does."""

import re
import sys
import xml.etree.ElementTree
from html.parser import HTMLParser

LOADING = {"src", "href", "xlink:href", "data", "action", "srcset", "poster", "background"}
problems = []


class Page(HTMLParser):
    def __init__(self):
        super().__init__()
        self.ids, self.links = [], []

    def handle_starttag(self, tag, attrs):
        if tag in ("script", "link", "iframe", "object", "embed", "base"):
            problems.append(f"element {tag}")
        for name, value in attrs:
            value = value or ""
            if name == "id":
                self.ids.append(value)
            elif name in LOADING and not value.startswith("data:"):
                self.links.append(value)
            self.links += re.findall(r"url\(([^)]*)\)", value)


text = open(sys.argv[1], encoding="utf-8").read()
try:
    xml.etree.ElementTree.fromstring(text)
except xml.etree.ElementTree.ParseError as error:
    problems.append(f"not well-formed: {error}")
page = Page()
page.feed(text)
problems += [f"link leaves the page: {link}" for link in page.links if not link.startswith("#")]
problems += [f"link without target: {link}" for link in page.links if link.startswith("#") and link[1:] not in set(page.ids)]
problems += [f"id twice: {name}" for name in sorted({name for name in page.ids if page.ids.count(name) > 1})]
if "@import" in text or not any(link.startswith("#chapter-") for link in page.links):
    problems.append("imports a style, or has no table of contents")
print("\n".join(problems) if problems else "sound")
