"""Milling the blanks: pass by pass, short ones in one length, and what no machine or stock can make."""

__all__: list[str] = []
