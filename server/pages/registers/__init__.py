"""The registers, to read and to print: qualifications, instruments, gas lines with their cylinders, filler rods."""
