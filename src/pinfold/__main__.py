"""`python -m pinfold`."""

from pinfold.cli import run

if __name__ == "__main__":
    run()
