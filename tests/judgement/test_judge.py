"""Judging many occasions: the worse answer stands, and a broken rule keeps no other from answering."""

from server.facts.judged import Severity, Verdict, Word
from server.facts.occasion_people import WelderOccasion
from server.judgement.book import Book
from server.judgement.judge import judge, judge_all
from server.judgement.rule import Answer, Rule, rule


def welder(**changed) -> WelderOccasion:
    told = {"subject": "ANN", "welder": "ANN", "today": 1, "lapses": (), "overlaps": (), "accept": {}}
    return WelderOccasion(**{**told, **changed})


def asking(answer, id: str = "q", severity: Severity = Severity.DECIDE) -> Rule:
    @rule(id=id, asks="Is it so?", level="welder", severity=severity, why="w", do="d", cannot_tell="c")
    def judged(me: Rule, on: WelderOccasion) -> Answer:
        return answer(me, on)

    return judged


def by_today(*answers):
    """Answer by the occasion's day: the first answer on day 0, the second on day 1."""
    return asking(lambda me, on: answers[on.today](me, on))


WITHIN = lambda me, on: me.within(on.subject, "w")  # noqa: E731
NOT_ASKED = lambda me, on: me.not_asked()  # noqa: E731
UNKNOWN = lambda me, on: me.unknown(on.subject, "missing", "u")  # noqa: E731


def outside(entry: str, **more):
    return lambda me, on: me.outside(on.subject, "beyond", entry, **more)


def two(first, second) -> Verdict:
    verdicts = judge_all([welder(today=0), welder(today=1)], Book("b", (by_today(first, second),)))
    assert len(verdicts) == 1
    return verdicts[0]


def test_the_worse_of_two_answers_stands_whichever_comes_first():
    """Outside stands above unknown, unknown above within, within above not asked, in either order."""
    ordered = [NOT_ASKED, WITHIN, UNKNOWN, outside("o")]
    words = [Word.NOT_ASKED, Word.WITHIN, Word.UNKNOWN, Word.OUTSIDE]
    for worse in range(1, 4):
        for milder in range(worse):
            assert two(ordered[worse], ordered[milder]).word is words[worse]
            assert two(ordered[milder], ordered[worse]).word is words[worse]


def test_of_two_findings_the_graver_the_proved_and_the_farther_stands():
    """A stop stands above a note, proved above not proved, further beyond the limit above nearer."""
    assert two(outside("a", severity=Severity.NOTE), outside("b", severity=Severity.STOP)).severity is Severity.STOP
    assert two(outside("a", proved=False), outside("b", proved=True)).proved
    assert two(outside("a", value=9.0, high=8.0), outside("b", value=12.0, high=8.0)).value == 12.0
    assert two(outside("a", value=5.0, low=6.0), outside("b", value=2.0, low=6.0)).value == 2.0


def test_a_finding_rests_on_the_entries_of_all_that_made_it():
    """Two findings on one question rest on both their entries; what was within adds none."""
    assert two(outside("a"), outside("b")).rests_on == ("a", "b")
    assert two(WITHIN, outside("b")).rests_on == ("b",)


def test_a_broken_rule_is_unknown_and_keeps_no_other_from_answering():
    """A rule that breaks, or answers nothing at all, gives unknown in its own severity; the next one answers."""
    broken = asking(lambda me, on: 1 / 0, "broken", Severity.STOP)
    silent = asking(lambda me, on: None, "silent")
    sound = asking(WITHIN, "sound")
    found = {verdict.question: verdict for verdict in judge(welder(), Book("b", (broken, silent, sound)))}
    assert found["broken"].word is Word.UNKNOWN
    assert found["broken"].severity is Severity.STOP
    assert "ZeroDivisionError" in found["broken"].message
    assert found["silent"].word is Word.UNKNOWN
    assert found["sound"].word is Word.WITHIN


def test_a_rule_may_answer_for_several_subjects():
    """A rule that answers for quarters gives one verdict for each of them."""
    many = asking(lambda me, on: [me.within("ANN:1"), me.outside("ANN:2", "beyond")])
    assert [(v.subject, v.word) for v in judge(welder(), Book("b", (many,)))] == [
        ("ANN:1", Word.WITHIN),
        ("ANN:2", Word.OUTSIDE),
    ]
