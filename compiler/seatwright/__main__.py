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
        from seatwright.commands.main import main
    except KeyboardInterrupt:
        sys.exit(130)
    code = main()
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # all is done: nothing is left to be stopped
    sys.exit(code)


if __name__ == "__main__":
    run()
