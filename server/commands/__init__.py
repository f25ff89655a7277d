"""What can be typed after `strawline`: one file per command, each with `run(arguments) -> exit code`."""
