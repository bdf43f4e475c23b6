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
    """Load msgspec without `typing_extensions`: it asks there first for what `typing` has had since Python 3.11, and
    to load that takes a start longer than all of msgspec."""
    if "typing_extensions" in sys.modules:
        return
    sys.modules["typing_extensions"] = None  # type: ignore[assignment]  # as Python has it: not to be found
    try:
        import msgspec  # noqa: F401
    finally:
        del sys.modules["typing_extensions"]


if __name__ == "__main__":
    run()
