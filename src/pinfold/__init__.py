"""pinfold: plan, prove, mix, buy, cut and print the enclosure of a growing plot."""

__version__ = "0.1.0"
