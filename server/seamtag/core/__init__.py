"""What judges, derives and decides, and nothing else.

Pure functions over plain data: no Flask, no database, no clock, no network, standard library only. The phone carries
the same core in TypeScript under the same file names (webapp/src/core); tests/vectors hold both to the same answers.
"""

VERSION = 3
"""Version of the judging, named by every record a phone makes."""
