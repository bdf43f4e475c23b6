"""The page round the cards: messages beside them, a banner while the file has errors, the script that asks for more.

The script stands here alone; cards.html has none. Everything of the job's reaches the page as text, never as markup.
"""

from __future__ import annotations

import html
import json

from seatwright.commands.watch.rebuild import WatchState, state_in_words
from seatwright.text import Message
from seatwright.text.gathered import gathered
from seatwright.text.terminal import render

_COLUMNS = 54  # what the pane of messages holds in a line

_STYLE = """
* { box-sizing: border-box; }
html, body { height: 100%; margin: 0; }
body { display: grid; grid-template: auto auto 1fr / minmax(18rem, 30rem) 1fr; font: 15px/1.4 sans-serif;
  background: #ddd; color: #111; }
header { grid-column: 1 / 3; display: flex; gap: 1.5rem; padding: 0.4rem 0.8rem; background: #222; color: #fff; }
header a { color: #fff; margin-left: auto; }
#banner { grid-column: 1 / 3; padding: 0.6rem 0.8rem; background: #fff; border: 4px solid #b00000; font-weight: bold; }
#banner[hidden] { display: none; }
#messages { overflow: auto; padding: 0.4rem 0.8rem; background: #f6f6f6; }
#messages pre { white-space: pre-wrap; overflow-wrap: anywhere; margin: 0 0 0.6rem; padding: 0.4rem 0.6rem;
  font: 12.5px/1.35 monospace; background: #fff; border-left: 6px solid #888; }
#messages pre.error { border-color: #b00000; } #messages pre.hold { border-color: #7a2e8e; }
#messages pre.warning { border-color: #b36b00; }
#cards { position: relative; } #cards iframe { position: absolute; inset: 0; width: 100%; height: 100%; border: 0; }
@media (max-width: 60rem) { body { grid-template: auto auto 1fr 12rem / 1fr; } header, #banner { grid-column: 1; }
  #messages { order: 1; } }
"""

_SCRIPT = """
"use strict";
const byId = (id) => document.getElementById(id);
let version = -1, cardsVersion = 0;

function showMessages(messages) {
  const block = (message) => {
    const shown = document.createElement("pre");
    shown.className = message.severity;
    shown.textContent = message.text;
    return shown;
  };
  const rest = messages.filter((message) => message.severity === "notice");
  const places = messages.filter((message) => message.severity !== "notice").map(block);
  if (rest.length > 0) {
    const folded = document.createElement("details");
    const said = document.createElement("summary");
    said.textContent = rest.length + (rest.length === 1 ? " thing" : " things") + " not given or not checked";
    folded.open = byId("messages").querySelector("details")?.open ?? false;
    folded.append(said, ...rest.map(block));
    places.push(folded);
  }
  byId("messages").replaceChildren(...places);
}

// The next cards are loaded behind the old ones and take their place once they are there, at the same height.
function showCards(number) {
  const next = document.createElement("iframe");
  next.setAttribute("sandbox", "allow-same-origin allow-modals");
  next.title = "cards";
  next.style.visibility = "hidden";
  next.onload = () => {
    const old = byId("cards").querySelector("iframe.shown");
    const at = old ? old.contentWindow.scrollY : 0;
    next.contentWindow.scrollTo(0, at);
    next.style.visibility = "";
    next.className = "shown";
    if (old) old.remove();
  };
  next.src = "cards.html?" + number;
  for (const waiting of byId("cards").querySelectorAll("iframe:not(.shown)")) waiting.remove();
  byId("cards").append(next);
}

function showBanner(text) {
  byId("banner").hidden = text === "";
  byId("banner").textContent = text;
}

async function follow() {
  for (;;) {
    let state;
    try {
      state = await (await fetch("state?after=" + version, {cache: "no-store"})).json();
    } catch {
      state = {ended: true};
    }
    if (state.ended) {
      showBanner("seatwright watch has ended: these cards no longer follow the file.");
      return;
    }
    if (state.version === version) continue;
    version = state.version;
    byId("outcome").textContent = state.outcome;
    showBanner(state.banner);
    showMessages(state.messages);
    if (state.cards !== cardsVersion) {
      cardsVersion = state.cards;
      showCards(cardsVersion);
    }
  }
}
follow();
"""

_PAGE = """<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>{title}</title>
<style nonce="{nonce}">{style}</style>
</head>
<body>
<header><strong>{title}</strong><span id="outcome">waiting for the first build</span>
<a href="cards.html" target="_blank" rel="noopener">the cards alone, to print</a></header>
<div id="banner" role="alert" hidden></div>
<div id="messages"></div>
<div id="cards"></div>
<script nonce="{nonce}">{script}</script>
</body>
</html>
"""


def page(job: str, nonce: str) -> bytes:
    """The page for a job, named as its owner named it. nonce: without which its script and style do not count."""
    return _PAGE.format(title=html.escape(job), nonce=nonce, style=_STYLE, script=_SCRIPT).encode("utf-8")


def policy(nonce: str) -> str:
    """What the page may do: run its own script, show and ask for what this server has, and nothing else."""
    return (
        f"default-src 'none'; script-src 'nonce-{nonce}'; style-src 'nonce-{nonce}'; "
        "connect-src 'self'; frame-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'"
    )


CARDS_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; frame-ancestors 'self'; "
    "base-uri 'none'; form-action 'none'"
)


def state(shown: WatchState) -> bytes:
    """What the script is told of a build, as JSON."""
    banner = ""
    if shown.trouble:
        kept = "Below are the LAST GOOD CARDS, from before it: do not cut by them." if shown.cards is not None else ""
        banner = f"{shown.trouble[:1].upper()}{shown.trouble[1:]}. {kept}".strip()
    return json.dumps(
        {
            "version": shown.version,
            "cards": shown.cards_version,
            "ended": shown.ended,
            "outcome": state_in_words(shown),
            "banner": banner,
            "messages": [_message(message, shown) for message in gathered(shown.messages)],
        }
    ).encode("utf-8")


def _message(message: Message, shown: WatchState) -> dict[str, str]:
    text = render([message], {source.path: source for source in shown.sources}, columns=_COLUMNS)
    return {"severity": message.severity.value, "text": text.rstrip("\n")}
