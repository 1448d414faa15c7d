"""The plan as one file for readers: it opens anywhere, without a server and without a network."""

from scantling.web.publishing.file import Edition, published_file

__all__ = ["Edition", "published_file"]
