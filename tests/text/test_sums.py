"""The sum by Python's own code is that of hashlib."""

import hashlib

from hypothesis import given
from hypothesis import strategies as some

from seatwright.text.sums import new_sha256, sha256_of


@given(some.binary(), some.binary())
def test_it_is_that_of_hashlib(first, second):
    assert sha256_of(first) == hashlib.sha256(first).hexdigest()
    more = new_sha256(first)
    more.update(second)
    assert more.hexdigest() == hashlib.sha256(first + second).hexdigest()
