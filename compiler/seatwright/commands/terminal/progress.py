"""A bar on the terminal while many jobs are built; nothing where standard error is no terminal."""

from __future__ import annotations

import sys

FEWEST = 4  # below so many jobs there is nothing to wait for


class Progress:
    """A bar on the last line of the terminal."""

    def __init__(self, of: int) -> None:
        self._of = of
        self._done = 0
        self._shown = of >= FEWEST and sys.stderr.isatty()

    def done(self, count: int) -> None:
        """Show that so many are done."""
        self._done = count
        if self._shown:
            import shutil

            sys.stderr.write(f"\r{bar(count, self._of, shutil.get_terminal_size((80, 24)).columns - 1)}")
            sys.stderr.flush()

    def clear(self) -> None:
        """Take the bar away, before something else is written."""
        if self._shown:
            sys.stderr.write("\r\x1b[K")
            sys.stderr.flush()

    def again(self) -> None:
        """Show the bar as it was, below what was written."""
        if self._done < self._of:
            self.done(self._done)


def bar(count: int, of: int, columns: int) -> str:
    """A bar of at most so many columns: `[#####.....]  12 of 40`."""
    words = f"{count:>{len(str(of))}} of {of}"
    room = min(50, columns - len(words) - 4)
    if room < 5:
        return words[:columns]
    full = room * count // of
    return f"[{'#' * full}{'.' * (room - full)}]  {words}"
