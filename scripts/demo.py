"""`make demo`: the sample seed garden through every verb, with a short table of what was found and where it lies."""

from __future__ import annotations

import contextlib
import io
import json
import sys
import time
from collections import Counter
from pathlib import Path

from pinfold.cli import main

ROOT = Path(__file__).resolve().parents[1]
SITE = ROOT / "demo-site"
GALLON = 3.785411784e-3


def ask(*words: str) -> str:
    """One verb on the demo site; stops the demo where the verb stops."""
    said = io.StringIO()
    with contextlib.redirect_stdout(said):
        status = main([*words])
    if status:
        print(said.getvalue())
        sys.exit(status)
    return said.getvalue()


def kept(verb: str, *words: str) -> object:
    """Run a verb twice, for reading and as JSON, keep both answers, and give the JSON."""
    site = ("--site", str(SITE))
    (SITE / "answers" / f"{verb}.txt").write_text(ask(verb, *words, *site), encoding="utf-8")
    text = ask(verb, *(word for word in words if word != "--working"), *site, "--json")
    (SITE / "answers" / f"{verb}.json").write_text(text, encoding="utf-8")
    return json.loads(text)


def found() -> list[tuple[str, str, str]]:
    """Every verb, what it found in a few words, and where that lies."""
    plan = kept("plan")
    stand = kept("stand", "--working")
    cards = kept("mix")["cards"]
    gathered = kept("gather", "--csv", str(SITE / "gather.csv"))
    parts = kept("cut")["parts"]
    costs = kept("reckon")["planned"]
    level = kept("level")
    binder = kept("binder")
    verdicts = Counter(finding["verdict"] for finding in stand["findings"])
    total = costs["total"] / 10 ** costs["digits"]
    formulas = json.loads(ask("formula", "--list", "--json"))
    return [
        ("plan", f"{len(plan['stretches'])} stretches, {len(plan['posts'])} posts, {len(plan['gates'])} gates; "
                 f"{len(plan['drawings'])} drawings", "drawings/"),
        ("stand", ", ".join(f"{count} {verdict}" for verdict, count in sorted(verdicts.items())), "answers/stand.txt"),
        ("mix", f"{len(cards)} batch cards, {sum(card['batches'] for card in cards)} batches", "answers/mix.txt"),
        ("gather", f"{len(gathered['lines'])} lines, {gathered['haulage']['trips']} trips, "
                   f"{gathered['water']['total_m3'] / GALLON:.0f} gal of water", "gather.csv"),
        ("cut", f"{sum(part['count'] for part in parts)} pieces of {len(parts)} kinds", "answers/cut.txt"),
        ("level", f"{sum(bool(move['shims']) for move in level['moves']['moves'])} of {len(level['lie']['supports'])} "
                  f"supports of the {level['neighbor']} to lift", "answers/level.txt"),
        ("reckon", f"{costs['currency']} {total:,.2f}".replace(",", " "), "answers/reckon.txt"),
        ("binder", f"{len(binder['parts'])} parts, {binder['drawings']} drawings to scale", "binder.pdf"),
        ("formula", f"{len(formulas)} formulas; try: pinfold formula --list", ""),
    ]  # fmt: skip


def run() -> None:
    """Start the demo site where there is none, ask everything, print the table; what was changed there stays."""
    start = time.perf_counter()
    if not (SITE / "plan.toml").exists():
        ask("new", str(SITE), "--sample", "seed-garden")
        ask("log", "in", str(SITE / "levels.csv"), "--site", str(SITE))
    (SITE / "answers").mkdir(exist_ok=True)
    rows = found()
    print(
        f"\npinfold on the sample 'seed garden' ({time.perf_counter() - start:.0f} s); the files lie in {SITE.name}/\n"
    )
    width = max(len(what) for _, what, _ in rows)
    for verb, what, file in rows:
        print(f"  {verb:<8} {what:<{width}}  {file}")
    print(f"\nOpen {SITE.name}/binder.pdf first. Change {SITE.name}/plan.toml and ask again, for example:")
    print(f"  .venv/bin/pinfold stand --site {SITE.name}")
    print("\nOr see and change it all in a browser, on this machine only:")
    print(f"  .venv/bin/pinfold serve --site {SITE.name}")


if __name__ == "__main__":
    run()
