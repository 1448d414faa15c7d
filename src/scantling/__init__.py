"""Planning and computing the making of one-off solid-wood furniture."""

__version__ = "0.1.0"
