"""Door 1: words to an action, an action to words."""


def main() -> int:
    """Run the command line."""
    return 0
