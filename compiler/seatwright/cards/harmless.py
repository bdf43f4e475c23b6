"""What a shop's own templates may not put on a card: whatever a browser would run, fetch or send away."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from html.parser import HTMLParser

from seatwright.cards.templating import TemplateFault

_TAGS = frozenset({"script", "iframe", "frame", "object", "embed", "applet", "base", "form", "link", "portal"})
_LEADING = frozenset({"href", "xlink:href", "src", "action", "formaction", "data", "to", "from", "values", "srcdoc"})
_TYPED = re.compile(
    rf"<\s*(?:{'|'.join(sorted(_TAGS))})\b|<[^>]*\son[a-z]+\s*=|javascript\s*:|http-equiv\s*=\s*[\"']?refresh",
    re.IGNORECASE,
)
_WHY = "a card runs nothing and fetches nothing; take it out"


def check(own: Mapping[str, str], html: str) -> None:
    """Raises TemplateFault for what a browser would run, at its line where one of the templates holds it as it is."""
    for name, text in sorted(own.items()):
        for number, line in enumerate(text.split("\n"), 1):
            if found := _TYPED.search(line):
                raise TemplateFault(f"template {name}, line {number}: `{found[0].strip()}` is refused: {_WHY}")
    reader = _Reader()
    reader.feed(html)
    reader.close()
    if reader.found:
        names = ", ".join(sorted(own))
        raise TemplateFault(f"the shop's own templates ({names}) make a `{reader.found}`, which is refused: {_WHY}")


class _Reader(HTMLParser):
    """Reads a page as a browser does, up to the first thing that would run."""

    found = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Look at a tag."""
        self.found = self.found or next(_runs(tag, attrs), "")


def _runs(tag: str, attrs: list[tuple[str, str | None]]) -> Iterator[str]:
    if tag in _TAGS:
        yield f"<{tag}>"
    for name, value in attrs:
        plain = re.sub(r"[\s\x00-\x1f]", "", value or "").lower()
        if name.startswith("on") or name == "srcdoc" or (tag == "meta" and name == "http-equiv" and plain == "refresh"):
            yield f"<{tag} {name}=…>"
        if name in _LEADING and plain.startswith(("javascript:", "vbscript:", "data:text/html")):
            yield f"<{tag} {name}={plain.partition(':')[0]}:…>"
