"""The tests. What several of them share lies beside them, under its whole name: `from tests.planning import jobs`."""
