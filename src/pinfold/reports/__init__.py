"""Answers as text, JSON and a typeset binder."""
