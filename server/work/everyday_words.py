"""Words that are somebody's name and a word of every day or of the bench, and letters that are no initials."""

import re
from functools import cache

from server.facts.quantities import QUANTITIES
from server.judgement.book import RULES
from server.judgement.cautions import ARC, ARGON, CYLINDER, FINES, HOT

_NAMES_TOO = """
    abbot art ash autumn baker ball banks bean bell berry bill birch bishop black blue bond bridge brook brown
    butler carpenter carter chandler chuck church clay cliff cook cooper cross dale dawn day dean down drew east eve
    faith field finch fisher fletcher ford forest forge fox frank frost gardener gene glass glen gold grace grant
    gray green grey guy hall hand hill hope hunter iris iron ivy jack joy june king knight lane lead light little
    long mark marsh marshall mason may miles mill miller moss north nail old page park parker peg penny piper pole
    pope porter post potter queen rain ray reed rice rich ring river rob robin rock rod rose rush sage sand sharp
    shaw silver small smith snow south spring steel stone strong sue summer swift tailor taylor tanner tin turner
    wade wall ward waters way weaver webb weld welder wells west white will winter wood woods wright young
    april august max min miss mister van von der den ter ten del das dos des bin ben las les the and for all any are
    but can did had has her him his how its let new not now off one our out own put run saw say see set she six ten
    too top try two use was who why yes you
    bikes bicycles brothers center centre clinic club company cycle cycles cycling dealer dealers frames hospital
    house institute limited logistics materials motors partners racing rehab rentals school seating service
    services shop sons sport sports store team titanium trading university wheel wheels works workshop
"""
_NO_INITIALS = """
    AM AN AS AT BE BY DO GO HE HI IF IN IS IT ME MY NO OF OH OK ON OR SO TO UP US WE EU UK
    AC DC TIG MIG WPS PQR NCR NDT OD ID IR PC TV QA QC CP HV HB HR HAZ ISO EN PM LH RH CL
    UT RT PT MT VT ET LT AE BB ST HT DT TT SS CS GP
    A V J K W C F N s g h m L mm ms kg kJ Hz kHz MHz Pa kPa MPa bar ppm min
    Al V Ti C Fe N O H Ar He W Ce La Th Pd Ru Ni Mo Cr Cu Nb Sn Zr Si Mn Co Mg Zn
"""
_NOT_DOTTED = "i.e e.g a.m p.m n.b o.k q.v c.f c.a p.a p.s a.c d.c i.d o.d N.B A.C D.C I.D O.D"
_WORDS = re.compile(r"[^\W\d_]+")
NO_INITIALS = frozenset(_NO_INITIALS.split())
"""Words, methods of test, tubes, units and elements, as they are written."""
NOT_DOTTED = frozenset(_NOT_DOTTED.split())
"""Letters with dots that abbreviate something else."""


@cache
def everyday_words() -> frozenset[str]:
    """Give the words that in small letters are no name: those above, and what the house itself says at the bench."""
    said = [each.words for each in QUANTITIES.values()] + [each.asks for each in RULES]
    return words_of(_NAMES_TOO, *said, ARC, ARGON, CYLINDER, FINES, HOT)


def words_of(*said: str) -> frozenset[str]:
    """Give the words of some sentences in small letters.

    >>> sorted(words_of("Seat tube", "tube"))
    ['seat', 'tube']
    """
    return frozenset(word.casefold() for each in said for word in _WORDS.findall(each))
