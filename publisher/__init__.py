"""Compiles a sewing pattern, one folder of YAML and Markdown, into the printable editions that its maker publishes."""

__version__ = "0.1.0"
