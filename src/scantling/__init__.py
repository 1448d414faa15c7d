"""Planning and computing the making of one-off solid-wood furniture."""

__all__ = ["__version__"]

__version__ = "0.1.0"
