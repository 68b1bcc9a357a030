"""A language server for editors: findings while a file is written, what a key means, and remedies to take over.

It judges nothing itself: what it shows of a file is what an audit of that file says.
"""
