"""Answers that were given before: kept as data, and given again only where everything they rest on is unchanged.

A stale answer could cost a life. So nobody lists by hand what an answer rests on: it is watched while the answer is
worked out, and looked at again before the answer is used. Nothing here imports more than Python has loaded anyway,
since a remembered answer must cost next to nothing.
"""

QUICK = 1  # of zlib, for all texts that are kept; a record shrinks to a third
