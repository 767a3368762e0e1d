"""Whether every part of an electrical path is fit to carry what it is asked to carry."""

from loadworthy._core import VERSION as __version__

__all__ = ["__version__"]
