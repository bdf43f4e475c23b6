"""`python -m seatwright`, and the command `seatwright`."""

import sys


def run() -> None:
    """Run the command that was typed.

    Until it begins its work there is nothing to be left in good order: Ctrl-C ends it at once and without a word.
    """
    try:
        import signal

        if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
            signal.signal(signal.SIGINT, signal.SIG_DFL)
        _load_records()
        from seatwright.commands.main import main
    except KeyboardInterrupt:
        sys.exit(130)
    code = main()
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # all is done: nothing is left to be stopped
    sys.exit(code)


def _load_records() -> None:
    """msgspec looks for typing_extensions, which is there wherever developers work, takes a twentieth of a start
    to load, and has nothing that these Pythons do not have themselves."""
    if "typing_extensions" in sys.modules:
        return
    sys.modules["typing_extensions"] = None  # type: ignore[assignment]
    try:
        import msgspec  # noqa: F401
    finally:
        del sys.modules["typing_extensions"]


if __name__ == "__main__":
    run()
