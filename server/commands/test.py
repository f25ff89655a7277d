"""Run the tests; further arguments go to pytest."""

from server.door.entrance import run_tests


def run(arguments: list[str]) -> int:
    """Become pytest, so that its exit code is ours."""
    run_tests(arguments)
