"""Values and names in the words of the trade, for screens, pages and questions."""

from fractions import Fraction

from drill.basis.length import Length, length_text, number_text
from drill.basis.words import say
from drill.rulebook.domain import UNKNOWN, Value
from drill.service.zones import ZONE_NAMES, zone_label

_VALUES = {
    "verdict": {
        "go": "Go ahead",
        "test_first": "Make test curls first",
        "ask_first": "Ask first, before anything else",
        "postpone": "Put it off to a later day",
        "refer": "Send the client to a physician first",
        "decline": "Do not do this service",
    },
    "base_control": {
        "on_base": "On base: held 45° past straight out",
        "half_off_base": "Half off base: held straight out",
        "off_base": "Off base: held 45° short of straight out",
    },
    "base_size": {
        "single": "As deep as the wound tool",
        "one_and_half": "One and a half wound tools deep",
        "double": "Two wound tools deep",
    },
    "base_direction": {
        "horizontal": "Horizontal partings",
        "vertical": "Vertical partings",
        "diagonal": "Diagonal partings",
    },
    "roll_direction": {
        "forward": "Forward",
        "back": "Back",
        "up": "Up",
        "down": "Down",
        "left": "To the client's left",
        "right": "To the client's right",
    },
    "wrap": {
        "croquignole": "Croquignole: ends to scalp, turn over turn",
        "spiral": "Spiral: side by side along the tool",
        "double_tool": "Double tool: half the strand on each",
    },
    "layout": {
        "straight_set": "Straight set",
        "bricklay": "Bricklay",
        "weave": "Weave",
        "curvature": "Curvature",
        "spiral_rows": "Spiral rows",
    },
    "papers": {
        "bookend": "One paper, folded round the ends",
        "double_flat": "Two papers, one under and one over",
        "single_flat": "One flat paper on top",
        "none": "No paper",
    },
    "tool.size": {
        "as_wished": "The size for the wished curl",
        "one_smaller": "One size smaller",
        "one_larger": "One size larger",
        "twice_natural": "At least twice the natural curl",
    },
    "test_curls.needed": {"yes": "Make test curls", "no": "No test curls"},
    "waving_lotion.class": {
        "alkaline": "An alkaline lotion",
        "acid_balanced": "An acid-balanced lotion",
        "none": "No lotion",
    },
    "waving_lotion.strength": {
        "resistant": "Made for resistant hair",
        "normal": "Made for normal hair",
        "treated": "Made for treated hair",
        "none": "No lotion",
    },
}
_NAMES = {
    "hair.length": "the length",
    "length.longest": "longest hair",
    "length.shortest": "shortest hair",
    "hair.strand": "the strand",
    "hair.density": "density",
    "hair.pattern": "natural pattern",
    "hair.porosity": "porosity",
    "porosity.weakest": "porosity at its weakest place",
    "porosity.strongest": "porosity at its most resistant place",
    "hair.elasticity": "elasticity",
    "hair.ends": "ends",
    "hair.growth": "growth",
    "hair.condition": "the hair",
    "history.known": "a record here",
    "history.color": "colour",
    "history.weeks_since_color": "weeks since the colour",
    "history.lightened": "lightening",
    "history.relaxer": "relaxer",
    "history.smoothing": "smoothing",
    "history.metallic_dye": "metallic dye",
    "history.weeks_since_perm": "weeks since the last perm",
    "history.reaction": "an earlier reaction",
    "health.treatment": "treatment",
    "health.months_since": "months since the treatment",
    "perm.left": "old perm on the length",
    "appointment": "the free time",
    "wish.curl_class": "wished curl",
    "wish.root_volume": "lift wished at the scalp",
    "wish.look": "wished look",
    "wish.wear": "the way it is worn",
    "zone.wear": "the way it is worn",
    "wish.blend": "a blend of two directions",
    "roll_direction": "the roll",
    "tool.shape": "the tool",
    "base_control": "base control",
    "wear_against_growth": "wear against the growth",
    "turns_on_wished": "the count of turns on the wished tool",
}


def value_words(decision: str, value: Value) -> str:
    """Write an outcome of a decision as a person says it.

    Args:
        decision: Dotted path in the plan.
        value: Its value.

    Returns:
        Words in the reader's language; a value that a local rule added is written as it is named.

    Source:
        The trade's words; common practice.
    """
    if isinstance(value, str):
        return say(_VALUES.get(decision, {}).get(value, value.replace("_", " ").capitalize()))
    if decision.endswith("_mm"):
        return say("{size} tool", size=length_text(_mm(value)))
    return number_text(value, digits=2)


def name_words(name: str) -> str:
    """Write a name of the vocabulary as a person says it.

    Source:
        The trade's words; common practice.
    """
    return say(_NAMES.get(name, name.rpartition(".")[2].replace("_", " ")))


# Facts that read badly as "name is value".
_FACTS: dict[tuple[str, Value], str] = {
    ("wear_against_growth", "yes"): "the wish goes against the growth",
    ("wear_against_growth", "no"): "nothing grows against the wish",
    ("hair.growth", "whorl"): "there is a whorl",
    ("hair.growth", "none"): "no growth is to be minded",
    ("scalp", UNKNOWN): "nobody has looked at the scalp",
    ("history.known", UNKNOWN): "nobody has looked for a record",
    ("history.reaction", UNKNOWN): "nobody has asked about earlier reactions",
    ("history.relaxer", UNKNOWN): "nobody has asked about relaxers",
    ("history.metallic_dye", UNKNOWN): "nobody has asked about dyes with metal",
    ("history.lightened", UNKNOWN): "nobody has asked about lightening",
    ("history.color", UNKNOWN): "nobody has asked about colour",
    ("health.treatment", UNKNOWN): "nobody has asked about treatment",
    ("health.months_since", UNKNOWN): "nobody knows when the treatment ended",
    ("hair.elasticity", UNKNOWN): "nobody has stretched a wet hair",
    ("porosity.weakest", UNKNOWN): "nobody has felt the porosity",
    ("porosity.strongest", UNKNOWN): "nobody has felt the porosity",
    ("hair.condition", UNKNOWN): "nobody knows how strong the hair is",
    ("hair.ends", UNKNOWN): "nobody has looked at the ends",
    ("perm.left", UNKNOWN): "nobody has asked about an old perm",
    ("wish.wear", UNKNOWN): "nobody has said how it is worn",
    ("hair.elasticity", "none"): "wet hair does not spring back",
    ("hair.elasticity", "reduced"): "wet hair springs back slowly",
    ("hair.elasticity", "good"): "wet hair springs back well",
    ("porosity.weakest", "porous"): "the weakest place is porous",
    ("porosity.weakest", "overporous"): "the weakest place is overporous",
    ("porosity.weakest", "resistant"): "all of the hair is resistant",
    ("scalp", "irritated"): "the scalp is irritated",
    ("scalp", "broken"): "the scalp is broken",
    ("history.color", "permanent"): "permanent colour is on the lengths",
    ("history.color", "semi"): "semi-permanent colour is on the lengths",
    ("hair.ends", "layered"): "the ends are layered",
    ("hair.ends", "even"): "the ends are of one length",
    ("wish.blend", "yes"): "two directions are to melt here",
    ("wish.blend", "no"): "no two directions are to melt here",
    ("wish.look", "ringlets"): "ringlets are wished",
    ("wish.look", "waves"): "waves are wished",
    ("history.known", "no"): "there is no record here",
    ("history.known", "yes"): "there is a record here",
    ("history.reaction", "yes"): "the skin has reacted before",
    ("history.relaxer", "hydroxide"): "a hydroxide relaxer is on the lengths",
    ("history.relaxer", "unsure"): "nobody can name the relaxer",
    ("history.relaxer", "thio"): "the hair was straightened with thio",
    ("history.smoothing", "yes"): "a smoothing service is on the lengths",
    ("history.metallic_dye", "yes"): "there is metal in the hair",
    ("history.metallic_dye", "suspected"): "a dye of unknown make may hold metal",
    ("history.lightened", "highlights"): "there are highlights",
    ("history.lightened", "all_over"): "it is lightened all over",
    ("history.lightened", "twice"): "it was lightened twice",
    ("health.treatment", "new_medicine"): "there is a new medicine",
    ("health.treatment", "chemotherapy"): "there was chemotherapy",
    ("perm.left", "part"): "part of an old perm is still there",
    ("perm.left", "all"): "an old perm is still on the length",
    ("test_curls.needed", "yes"): "a doubt asks for test curls",
    ("service", "wet_set"): "this is a wet set",
    ("service", "practice_wrap"): "this is a practice wrap",
    ("service", "perm"): "this is a perm",
}
_SPANS = {
    "history.weeks_since_color": "it was coloured {span} ago",
    "history.weeks_since_perm": "the last perm was {span} ago",
    "health.months_since": "the treatment ended {span} ago",
}
_DAYS_A_WEEK = 7


def fact_words(name: str, value: Value, unit: str = "") -> str:
    """Write a fact of a head as a clause.

    Args:
        name: Dotted name.
        value: Its value.
        unit: Unit of a number.

    Returns:
        For example ``elasticity is reduced`` or ``there is a whorl``.

    Source:
        The trade's words; common practice.
    """
    if (name, value) in _FACTS:
        return say(_FACTS[name, value])
    words = zone_words(str(value)) if name == "zone" else stated_words(value, unit)
    return clause_words(name, words)


def clause_words(name: str, words: str) -> str:
    """Join a name and the words of its value to a clause.

    Args:
        name: Dotted name.
        words: Its value in words.

    Returns:
        For example ``density is thick`` or ``the last perm was 6 weeks ago``.

    Source:
        The trade's words; common practice.
    """
    if name in _SPANS and any(map(str.isdigit, words)):
        return say(_SPANS[name], span=words)
    return say("{name} is {words}", name=say("the zone") if name == "zone" else name_words(name), words=words)


def zone_words(zone: str | None) -> str:
    """Write a zone as a person says it; ``head`` for none.

    Source:
        The nine-section head; common practice.
    """
    return zone_label(zone) if zone in ZONE_NAMES else say("head")


def stated_words(value: Value, unit: str = "") -> str:
    """Write a value as it is stated of a head.

    Args:
        value: Named value or number.
        unit: Unit of the number.

    Returns:
        For example ``reduced``, ``21 cm``, ``6 weeks`` or, of less than a week, ``4 days``.

    Source:
        None; a way to write.
    """
    if isinstance(value, str):
        return say(value.replace("_", " "))
    if unit == "mm":
        return length_text(_mm(value))
    if unit == "weeks" and 0 < value < 1:
        value, unit = max(1, round(value * _DAYS_A_WEEK)), "days"
    # One week, one month, one minute: a unit in full letters has its own word for one.
    name = unit.removesuffix("s") if value == 1 else unit
    return f"{number_text(value)} {say(name)}".strip() if name else number_text(value)


def _mm(value: float) -> Length:
    return Length(Fraction(str(value)))
