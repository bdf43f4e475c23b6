"""Insert, bore and interference as printed manuals give all three: any two must give the third."""

from __future__ import annotations

import pytest

from seatwright.handbook.fits import bore_window, interference_from


def test_a_printed_intake_seat_gives_its_bore_and_its_interference():
    # S1, service manual 2004, EM-86/87, aluminium head, intake: insert 33.065-33.078, bore 33.000-33.015,
    # interference 0.050-0.078 mm.
    assert interference_from(33.065, 33.078, 33.000, 33.015) == pytest.approx((0.050, 0.078))
    assert bore_window(33.065, 33.078, 0.050, 0.078) == pytest.approx((33.000, 33.015, 33.0075))
