"""Settings that all tests share."""

from __future__ import annotations

import os
import shutil
import signal

import pytest
from hypothesis import HealthCheck, settings

# Started in the background of a script, a run ignores ctrl-C, and so would every program that its tests start.
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    signal.signal(signal.SIGINT, signal.default_int_handler)

settings.register_profile(
    "house", deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
settings.load_profile("house")


def pytest_runtest_setup(item: pytest.Item) -> None:
    """A browser test needs chromium; without it, it is skipped by name, or fails where CI demands it."""
    if item.get_closest_marker("browser") is None:
        return
    missing = [name for name in ("chromium", "pdftoppm") if shutil.which(name) is None]
    if missing and os.environ.get("SEATWRIGHT_BROWSER") == "required":
        pytest.fail(f"{', '.join(missing)} not installed, and this run requires a browser")
    if missing:
        pytest.skip(f"{', '.join(missing)} not installed (Debian: apt-get install chromium poppler-utils)")
