"""The door of the house: `python3 -m server COMMAND` makes the environment stand, then does the command in it."""

import sys

OLDEST_PYTHON = (3, 11)


def main(arguments: "list[str] | None" = None) -> int:
    """Do what was typed; the exit code is 0 when it went well, 2 when it was typed wrongly."""
    if sys.version_info < OLDEST_PYTHON:
        found = ".".join(str(part) for part in sys.version_info[:3])
        print(f"strawline: needs Python 3.11 or newer, this is {found}; run it with a newer python3", file=sys.stderr)
        return 2
    from server.door.entrance import enter

    return enter(sys.argv[1:] if arguments is None else arguments)


if __name__ == "__main__":
    sys.exit(main())
