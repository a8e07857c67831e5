"""The command ``wavedrill``: today's drill, and the commands around it."""

from pathlib import Path
from typing import Any

import click
from click.core import ParameterSource

from drill.basis.problem import ProblemsError
from drill.basis.words import say
from drill.cli.aid import aid_command
from drill.cli.ask import ask_command
from drill.cli.check import check_command
from drill.cli.drill import open_terminal, run_drill
from drill.cli.exam import exam_command
from drill.cli.in_force import PACK
from drill.cli.lotion import lotion_command
from drill.cli.new import new_command
from drill.cli.pack import pack_command
from drill.cli.plan import plan_command
from drill.cli.schema import schema_command
from drill.cli.seen import seen_command
from drill.cli.telling import name_or_usage, refuse
from drill.cli.today import OpenWindow, demo_session, has_display, student_session, told_first
from drill.cli.tutor import tutor_command
from drill.cli.visit import visit_command
from drill.study.sitting import Goal

_LONGEST_MINUTES, _MOST_QUESTIONS = 240, 500
# What is read there is a school's folder, or nothing of a school at all.
_WITHOUT_PACK = ("aid", "check", "new", "pack", "schema")


class _Wavedrill(click.Group):
    """Says problems as lines wherever they come from."""

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401  a command may return anything
        try:
            return super().invoke(ctx)
        except ProblemsError as error:
            refuse(error.problems)


@click.group("wavedrill", cls=_Wavedrill, invoke_without_command=True)
@click.option("--school", metavar="FOLDER", type=click.Path(path_type=Path), help="The school's folder.")
@click.option(
    "--pack",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="The school's pack in place of its folder; before any command that asks or plans.",
)
@click.option("--student", metavar="NAME", help="Whose answers they are; kept for the next time.")
@click.option(
    "--minutes",
    metavar="N",
    type=click.IntRange(1, _LONGEST_MINUTES),
    help="Ask nothing new after so many minutes.",
)
@click.option(
    "--questions", metavar="N", type=click.IntRange(1, _MOST_QUESTIONS), help="Ask so many questions."
)
@click.option("--topic", metavar="TOPIC", help="Ask this topic only (in the terminal).")
@click.option(
    "--terminal/--window", "terminal", default=None, help="Where to drill; a window where one is seen."
)
@click.option("--demo", is_flag=True, help="Look around with an invented school, student and answers.")
@click.version_option(package_name="drill", prog_name="wavedrill")
@click.pass_context
def wavedrill(
    ctx: click.Context,
    *,
    school: Path | None,
    pack: Path | None,
    student: str | None,
    minutes: int | None,
    questions: int | None,
    topic: str | None,
    terminal: bool | None,
    demo: bool,
) -> None:
    """Drill the judgement behind a permanent wave: one head, one decision, how sure, and why.

    Without a command this is today's drill. Answers are kept on this device, in the folder that
    WAVEDRILL_HOME names, or in your system's own place for such data.

    What it says is a proposal, never permission: on a client the maker's directions, local codes and licensed
    practice decide.
    """
    ctx.meta[PACK] = pack
    if ctx.invoked_subcommand is not None:
        _refuse_stray_options(ctx)
        return
    if demo and pack is not None:
        raise click.UsageError(say("--demo has a school of its own; leave --pack out"))
    open_window: OpenWindow | None = ctx.obj
    in_terminal = _goes_in_terminal(terminal, topic=topic, can_open=open_window is not None)
    with demo_session() if demo else student_session(school=school, student=student) as session:
        if topic is not None:
            name_or_usage(topic, session.book.topics, option="--topic")
        goal = Goal(questions=questions, minutes=minutes) if questions or minutes else None
        if goal is not None:
            session.goal = goal
        if in_terminal or open_window is None:
            run_drill(session, open_terminal(), topic=topic, anew=bool(goal or topic))
        else:
            told = told_first()
            open_window(session, told=told) if told else open_window(session)


def _goes_in_terminal(terminal: bool | None, *, topic: str | None, can_open: bool) -> bool:
    if terminal is False and topic is not None:
        raise click.UsageError(say("--topic works in the terminal; leave --window out"))
    if terminal is None:
        return topic is not None or not can_open or not has_display()
    return terminal


def _refuse_stray_options(ctx: click.Context) -> None:
    """Refuse options of the drill before another command, where they would do nothing."""
    for parameter in ctx.command.params:
        goes_by = parameter.name == "pack" and ctx.invoked_subcommand not in _WITHOUT_PACK
        if not goes_by and ctx.get_parameter_source(parameter.name or "") == ParameterSource.COMMANDLINE:
            raise click.UsageError(
                say(
                    "{option} before '{command}' belongs to the drill; "
                    "write what is meant for '{command}' after it",
                    option="/".join((*parameter.opts, *parameter.secondary_opts)),
                    command=ctx.invoked_subcommand,
                )
            )


for _command in (
    aid_command,
    plan_command,
    lotion_command,
    seen_command,
    ask_command,
    check_command,
    exam_command,
    new_command,
    schema_command,
    pack_command,
    tutor_command,
    visit_command,
):
    wavedrill.add_command(_command)
