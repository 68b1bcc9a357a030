"""Spans, pages and quoting that all reports share."""
