"""The binder: everything about one plot as a printable PDF to take to the site."""
