"""The version of the program, said in this place alone."""

VERSION = "0.2.0"
