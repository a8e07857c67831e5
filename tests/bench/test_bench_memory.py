"""Times of choosing, and of opening a log of 100,000 attempts; no time is asserted, the results are."""

import random
from datetime import UTC, datetime, timedelta

import pytest

from drill.memory.attempt import Attempt, new_attempt_id, study_day
from drill.memory.choose import choose_skill, rank_skills
from drill.memory.recall import Memory
from drill.store.sqlite_log import open_log

START = datetime(2026, 1, 5, 18, 0, tzinfo=UTC)
SKILLS = [f"skill-{n:03}" for n in range(300)]
TOPICS = {f"topic-{n}": SKILLS[n::10] for n in range(10)}
WEIGHTS = {f"topic-{n}": (n + 1) / 55 for n in range(10)}
COUNT = 100_000


def _attempts(students):
    rng = random.Random(11)
    at = START
    for n in range(COUNT):
        at += timedelta(seconds=90)
        yield Attempt(
            id=new_attempt_id(at, rng=rng),
            student=f"student-{n % students:02}",
            device="tablet-1",
            at=at,
            day=study_day(at, tz_offset=timedelta(hours=-6)),
            skill=rng.choice(SKILLS),
            item="base-for-lift",
            seed=rng.getrandbits(31),
            rulebook="3f2a77c01b",
            choice="half_off_base",
            correct=rng.random() < 0.7,
            misconceptions=("lift-is-always-on-base",),
            certainty=rng.choice(("low", "middle", "high")),
            seconds=20.0,
            setting="drill",
        )


@pytest.fixture(scope="module", params=[1, 30], ids=["one-student", "thirty-students"])
def log_path(request, tmp_path_factory):
    path = tmp_path_factory.mktemp("log") / "class.log"
    with open_log(path) as log:
        log.receive(_attempts(request.param), now=START + timedelta(days=400), origin="made")
        for student in log.students():
            log.memories(student)
    return path


def _first_skills(path, *, read_only=False, rebuild=False):
    first = {}
    with open_log(path, read_only=read_only) as log:
        if rebuild:
            log.drop_memories()
        for student in log.students():
            ranked = rank_skills(
                log.memories(student), skills_by_topic=TOPICS, weight_by_topic=WEIGHTS, today=20_700
            )
            first[student] = choose_skill(ranked).skill
    return first


def test_bench_choice_among_300_skills(benchmark):
    """Ranking every skill of a bank, two thirds of them seen."""
    rng = random.Random(5)
    memories = {
        skill: Memory(
            skill=skill,
            stability=rng.uniform(0.2, 60),
            difficulty=rng.uniform(1, 10),
            last_day=20_500 - rng.randint(1, 40),
            attempts=3,
            right=2,
            first_right=False,
            last_right=True,
        )
        for skill in rng.sample(SKILLS, 200)
    }

    def choose():
        ranked = rank_skills(
            memories, skills_by_topic=TOPICS, weight_by_topic=WEIGHTS, today=20_500, exam_day=20_530
        )
        return len(ranked), choose_skill(ranked)

    count, choice = benchmark(choose)
    assert count == 300
    assert choice.skill in SKILLS


@pytest.mark.parametrize("read_only", [False, True], ids=["write", "read"])
def test_bench_open_to_first_skill_from_the_cache(benchmark, log_path, read_only):
    """From a closed file to the first skill of every student."""
    first = benchmark.pedantic(_first_skills, args=(log_path,), kwargs={"read_only": read_only}, rounds=5)
    assert set(first.values()) <= set(SKILLS)


def test_bench_open_to_first_skill_with_a_rebuild(benchmark, log_path):
    """The same when the cache must be made anew; the choice is the same."""
    rebuilt = benchmark.pedantic(_first_skills, args=(log_path,), kwargs={"rebuild": True}, rounds=1)
    assert rebuilt == _first_skills(log_path)


def test_bench_append(benchmark, log_path):
    """One answer into a large log, on the disk when it returns."""
    rng = random.Random(17)
    template = next(_attempts(1))
    values = {name: getattr(template, name) for name in template.__dataclass_fields__}
    moments = iter(range(1, 10**6))
    with open_log(log_path) as log:
        before = len(log.attempts())

        def append():
            at = START + timedelta(days=300, seconds=next(moments))
            day = study_day(at, tz_offset=timedelta(0))
            log.append(Attempt(**values | {"id": new_attempt_id(at, rng=rng), "at": at, "day": day}))

        benchmark.pedantic(append, rounds=200)
        assert len(log.attempts()) > before
