"""`python -m seatwright`."""

import sys

from seatwright.commands.main import main

sys.exit(main())
