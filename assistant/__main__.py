"""The command: demo, serve, try, check, load. Each sub-command is a few lines; the work is done below."""

from __future__ import annotations

import gc
import json
import sys
from pathlib import Path
from typing import Annotated, Any

import typer
from rich.console import Console

from assistant.values import AssistantError, RulebookError

app = typer.Typer(add_completion=False, no_args_is_help=True, pretty_exceptions_enable=False,
                  help="Answers followers' modification questions; a coach approves every reply.")  # fmt: skip
Rules = Annotated[Path | None, typer.Option("--rules", help="Folder of cards; default: the one installed.")]
Debug = Annotated[bool, typer.Option("--debug", help="Show the traceback of a mistake.")]
_STATE = {"debug": False}
_USAGE, _FAILED = 2, 1
_COLLECT = (50_000, 20, 20)  # what a start makes, code and cards, stays: looking for dead objects finds none


@app.callback()
def _options(debug: Debug = False) -> None:
    _STATE["debug"] = debug


@app.command("try")
def try_(
    text: Annotated[str | None, typer.Argument(help="What a follower writes.")] = None,
    plan: Annotated[str | None, typer.Option(help="Id of a demo plan, or a file with a plan.")] = None,
    item: Annotated[str | None, typer.Option(help="The slot it is about, such as A2.")] = None,
    profile: Annotated[Path | None, typer.Option(help="JSON file with has, limits, can.")] = None,
    lines: Annotated[
        bool, typer.Option("--lines", help="JSON lines in (TEXT is a file, or standard input), lines out.")
    ] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print the line out of the contract.")] = False,
    rules: Rules = None,
) -> None:
    """One message through the five verbs, a block per verb with its reasons."""
    from assistant import trial

    if lines:
        source = sys.stdin if text in (None, "-") else open(text, encoding="utf-8", errors="replace")  # noqa: SIM115
        with source:
            raise typer.Exit(trial.try_lines(source, sys.stdout, rules))
    line: dict[str, Any] = {
        "text": text,
        "plan": trial.plan_of(plan),
        "item": item,
        "profile": trial.profile_of(profile),
    }
    answer = trial.try_one(line, rules)
    if as_json:
        print(json.dumps(trial.as_json(answer), ensure_ascii=False, indent=2))
    else:
        trial.show(answer, Console(highlight=False))


@app.command()
def check(rules: Rules = None) -> None:
    """Every mistake in the cards with file and line, then every example; exit 1 if any."""
    from assistant.check import check as run

    report = run(rules)
    for line in report.lines():
        print(line)
    raise typer.Exit(0 if report.ok else _FAILED)


@app.command("load")
def load_(
    exercise: Annotated[str, typer.Argument(help="Id of the exercise, such as mid-incline-push-up.")],
    height: Annotated[float | None, typer.Option(help="Height of hands (or feet) in cm.")] = None,
    mass: Annotated[float | None, typer.Option(help="Body mass in kg.")] = None,
    stature: Annotated[float | None, typer.Option(help="Stature in cm.")] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print the object of the contract.")] = False,
    rules: Rules = None,
) -> None:
    """The demands of an exercise with low and high ends, and where each comes from."""
    from assistant import load as demands
    from assistant.rulebook import load

    book = load(rules)
    found = demands.demand_for(book, exercise, height, mass, stature)
    if as_json:
        print(json.dumps(demands.as_json(exercise, found), indent=2))
    else:
        print("\n".join(demands.lines(book, found)))


@app.command()
def gaps(
    pairs: Annotated[bool, typer.Option(help="Pairs of limits too: about a minute.")] = True,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
    rules: Rules = None,
) -> None:
    """Which exercise × limit (and pair of limits) has no answer."""
    from assistant import gapsheet
    from assistant.rulebook import load

    found = gapsheet.looked(load(rules), pairs, Console(stderr=True))
    if as_json:
        print(json.dumps(gapsheet.as_json(found), ensure_ascii=False, indent=2))
    else:
        gapsheet.show(found, Console(highlight=False))


@app.command("figures")
def figures_(
    file: Annotated[Path, typer.Argument(help="The HTML page to write.")] = Path("figures.html"), rules: Rules = None
) -> None:
    """One HTML page with the stick figures of all exercises that have a pose, family by family."""
    from assistant.rulebook import load
    from assistant.web.figures import contact_sheet

    file.write_text(contact_sheet(load(rules)), encoding="utf-8")
    print(f"All figures are in {file}.")


@app.command("measure")
def measure_(
    corpus: Annotated[Path, typer.Argument(help="File of labelled messages, one JSON object a line.")],
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
    rules: Rules = None,
) -> None:
    """How well labelled messages are read: precision, recall and F1 by field, confusions, the slowest messages."""
    from assistant.measure import measure, show
    from assistant.rulebook import load

    with corpus.open(encoding="utf-8") as lines:
        found = measure(lines, load(rules))
    if as_json:
        print(json.dumps(found.as_json(), ensure_ascii=False, indent=2))
    else:
        show(found, Console(highlight=False))


@app.command()
def demo(
    port: Annotated[int, typer.Option(help="Port on 127.0.0.1; 0 = any free one.")] = 8000,
    keep: Annotated[Path | None, typer.Option(help="Keep the store in this folder.")] = None,
    rules: Rules = None,
) -> None:
    """Fill a fresh store with demo_data/, serve it on 127.0.0.1 and print the addresses of both pages."""
    from assistant.demonstration import run

    run(port, keep, rules, print)


@app.command()
def serve(rules: Rules = None) -> None:
    """Serve for real; settings come from the environment (ASSISTANT_...), see the README."""
    import uvicorn

    from assistant.web import create_app
    from assistant.web.settings import Settings

    settings = Settings() if rules is None else Settings(rules=rules)
    uvicorn.run(create_app(settings), host=settings.host, port=settings.port, log_level="warning", access_log=False,
                timeout_graceful_shutdown=2)  # fmt: skip


@app.command("add-coach")
def add_coach(
    coach: Annotated[str, typer.Argument(help="Id of the coach, such as ferry-lane.")],
    name: Annotated[str, typer.Option(help="How the coach is called on pages.")],
    password: Annotated[str, typer.Option(prompt=True, hide_input=True, confirmation_prompt=True)],
) -> None:
    """A new coach account in the store of ASSISTANT_STORE_URL, or a new password for a known one."""
    from assistant.demonstration import inbox_at
    from assistant.web.settings import Settings

    settings = Settings()
    inbox_at(settings.store_url, settings.rules).add_coach(coach, name, password)
    print(f"{name} can sign in as {coach}.")


@app.command("add-follower")
def add_follower(coach: str, name: str) -> None:
    """A new follower of a coach; prints the address of the follower's own page."""
    from assistant.demonstration import inbox_at
    from assistant.web.settings import Settings

    settings = Settings()
    made = inbox_at(settings.store_url, settings.rules).add_follower(coach, name)
    print(f"{settings.public_url or f'http://{settings.host}:{settings.port}'}/ask/{made['token']}")


@app.command("add-plan")
def add_plan(coach: str, file: Path) -> None:
    """A day's session from a JSON file (id, title, day, items) into the store, or its new form."""
    from assistant.demonstration import inbox_at
    from assistant.trial import plan_in
    from assistant.web.settings import Settings

    settings = Settings()
    plan = plan_in(file)
    inbox_at(settings.store_url, settings.rules).add_plan(coach, plan)
    print(f"Plan '{plan.id}' is in the store.")


def main() -> None:
    """Run the command; a mistake is one plain line (or the list of mistakes), never a traceback."""
    gc.set_threshold(*_COLLECT)
    try:
        app()
    except RulebookError as error:
        if _STATE["debug"]:
            raise
        print(error, file=sys.stderr)
        sys.exit(_FAILED)
    except (AssistantError, OSError) as error:
        if _STATE["debug"]:
            raise
        print(f"assistant: {error}", file=sys.stderr)
        sys.exit(_USAGE)
    except Exception as error:
        if _STATE["debug"]:
            raise
        print(f"assistant: something went wrong inside ({type(error).__name__}); --debug shows where", file=sys.stderr)
        sys.exit(_FAILED)


if __name__ == "__main__":
    main()
