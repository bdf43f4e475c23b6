"""Headless Chromium for the tests: a page printed, or measured by a script that runs in it."""

from __future__ import annotations

import html
import json
import re
import subprocess
from pathlib import Path
from typing import Any

_HOUSEHOLD = [
    "chromium",
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP * ~NOTFOUND",  # nothing is fetched, whatever a page asks for
]


def printed(page: str, folder: Path, name: str = "cards") -> Path:
    """The PDF that Chromium prints of a page."""
    source, pdf = folder / f"{name}.html", folder / f"{name}.pdf"
    source.write_text(page, "utf-8")
    own = [f"--user-data-dir={folder / 'profile'}", "--no-pdf-header-footer", f"--print-to-pdf={pdf}"]
    subprocess.run([*_HOUSEHOLD, *own, source.as_uri()], check=True, capture_output=True, timeout=180)
    return pdf


def measured(page: str, script: str, folder: Path, width: int = 1400) -> Any:
    """What a script finds in a page: the value that its last expression, a promise or not, comes to."""
    source = folder / "measured.html"
    run = (
        "<script>document.fonts.ready.then(async () => {"
        f"let found; try {{ found = await (async () => {{{script}}})(); }} catch (e) {{ found = 'failed: ' + e; }}"
        "const pre = document.createElement('pre'); pre.id = 'found'; pre.textContent = JSON.stringify(found);"
        "document.body.replaceChildren(pre); });</script></body>"
    )
    source.write_text(page.replace("</body>", run), "utf-8")
    own = [f"--user-data-dir={folder / 'profile'}", f"--window-size={width},1000", "--virtual-time-budget=20000"]
    done = subprocess.run(
        [*_HOUSEHOLD, *own, "--dump-dom", source.as_uri()], check=True, capture_output=True, text=True, timeout=240
    )
    answer = re.search(r'<pre id="found">(.*?)</pre>', done.stdout, re.S)
    assert answer is not None, "Chromium did not measure"
    return json.loads(html.unescape(answer[1]))


def words_of(pdf: Path) -> list[list[tuple[float, float, float, float, str]]]:
    """The words of each page with their boxes: left, top, right, bottom in points."""
    done = subprocess.run(["pdftotext", "-bbox", str(pdf), "-"], check=True, capture_output=True, text=True)
    pattern = r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>'
    return [
        [
            (float(a), float(b), float(c), float(d), html.unescape(text))
            for a, b, c, d, text in re.findall(pattern, page)
        ]
        for page in re.findall(r"<page .*?</page>", done.stdout, re.S)
    ]
