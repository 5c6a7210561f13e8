"""The whole job in days: what is to be done, how long it takes, when, and how far it is."""
