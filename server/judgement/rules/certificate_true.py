"""Whether a later analysis of a cylinder agrees with its certificate."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_line import CylinderOccasion
from server.judgement.rule import Rule, rule
from server.statistics.conformity import Conformity, conform


@rule(
    id="certificate-true",
    asks="Does what was measured agree with the certificate?",
    level="cylinder",
    severity=Severity.DECIDE,
    limit_from="certificate",
    causes=("C2", "C26"),
    why="A certificate that was wrong once may be wrong for the rest of its lot.",
    do="Write to the supplier; have the other cylinders of the lot sampled or beaded before they are used.",
    cannot_tell="A cylinder analysed after use may have taken in air on its way back.",
)
def certificate_true(me: Rule, on: CylinderOccasion) -> Verdict:
    if on.analysis is None:
        return me.not_asked()
    found = [each for each in (_dew_point(on), _oxygen(on)) if each is not None]
    if not found:
        return me.not_asked()
    beyond = [each for each in found if each[0].word == "outside"]
    if not beyond:
        return me.within(on.subject, on.analysis)
    proved = any(said.proved for said, _ in beyond)
    said = f"{on.cylinder}: its analysis found {' and '.join(words for _, words in beyond)}."
    return me.outside(on.subject, said, on.analysis, value=on.cylinder, proved=proved, source=on.certificate or "")


def _dew_point(on: CylinderOccasion) -> tuple[Conformity, str] | None:
    if on.analysis_dew_c is None or on.certificate_dew_c is None:
        return None
    said = conform(on.analysis_dew_c, None, on.certificate_dew_c, on.analysis_dew_u_c)
    return said, f"dew point {on.analysis_dew_c:g} °C, certified {on.certificate_dew_c:g} °C"


def _oxygen(on: CylinderOccasion) -> tuple[Conformity, str] | None:
    if on.analysis_oxygen_ppm is None or on.certificate_oxygen_ppm is None:
        return None
    said = conform(on.analysis_oxygen_ppm, None, on.certificate_oxygen_ppm, None)
    return said, f"oxygen {on.analysis_oxygen_ppm:g} ppm, certified {on.certificate_oxygen_ppm:g} ppm"
