"""The safety gate once more, by somebody else: ordinary ifs over a dictionary, and nothing of the program.

Written from the words of the trade and of the contract alone. A head is a dictionary of dotted names; what
nobody has said is ``"unknown"``, a length is in millimetres and a time in the unit of its name. Each worry is
a function of its own, so that it can be asked for every combination of the few things it looks at.
"""

STRICTNESS = ("go", "test_first", "ask_first", "postpone", "refer", "decline")


def second_opinion(head):
    """The strictest of all worries."""
    return max((worry(head) for worry in WORRIES), key=STRICTNESS.index)


# What stops any service at all.


def scalp(head):
    if head["scalp"] == "irritated" or head["scalp"] == "broken":
        return "postpone"
    # A practice head has no scalp that anybody would have to look at.
    if head["scalp"] == "unknown" and head["service"] != "practice_wrap":
        return "ask_first"
    return "go"


# What stops a perm.


def reaction(head):
    if head["history.reaction"] == "yes":
        return "refer"
    if head["history.reaction"] == "unknown":
        return "ask_first"
    return "go"


def relaxer(head):
    if head["history.relaxer"] == "hydroxide":
        return "decline"
    if head["history.relaxer"] == "unsure":  # counts as hydroxide
        return "decline"
    if head["history.relaxer"] == "unknown":
        return "ask_first"
    return "go"


def smoothing(head):
    return "decline" if head["history.smoothing"] == "yes" else "go"


def metal(head):
    if head["history.metallic_dye"] == "yes":
        return "decline"
    if head["history.metallic_dye"] == "unknown":
        return "ask_first"
    return "go"


def spring(head):
    if head["hair.elasticity"] == "none":
        return "decline"
    if head["hair.elasticity"] == "unknown":
        return "ask_first"
    return "go"


def surface(head):
    if head["porosity.weakest"] == "unknown":
        return "ask_first"
    if head["porosity.strongest"] == "unknown":
        return "ask_first"
    return "go"


def surface_and_spring(head):
    if head["porosity.weakest"] == "overporous" and head["hair.elasticity"] == "reduced":
        return "decline"
    return "go"


def lightened(head):
    if head["history.lightened"] == "all_over" or head["history.lightened"] == "twice":
        return "decline"
    if head["history.lightened"] == "highlights":
        if head["porosity.weakest"] == "overporous":
            return "decline"
        if head["hair.elasticity"] == "reduced":  # highlights on elastic hair only
            return "decline"
    # Left out it counts as none where the colour was none or one that washes out.
    if head["history.lightened"] == "unknown" and head["history.color"] in ("permanent", "unknown"):
        return "ask_first"
    return "go"


def fresh_colour(head):
    weeks = head["history.weeks_since_color"]
    if weeks == "unknown":
        return "go"
    if head["history.color"] == "permanent" and weeks < 2:
        return "postpone"
    if head["history.color"] == "semi" and weeks < 1:
        return "postpone"
    return "go"


def perm_upon_perm(head):
    weeks = head["history.weeks_since_perm"]
    if weeks in ("unknown", "never"):
        return "go"
    if head["perm.left"] in ("part", "all") and weeks < 12:
        return "postpone"
    return "go"


def treatment(head):
    if head["health.treatment"] == "unknown":
        return "ask_first"
    if head["health.treatment"] == "chemotherapy":
        months = head["health.months_since"]
        if months == "unknown":
            return "ask_first"
        if months < 6:
            return "postpone"
    return "go"


def two_openings_on_weak_hair(head):
    """Loosening one's own curl softens and waves in one visit."""
    if not _loosens_own_curl(head):
        return "go"
    if head["history.relaxer"] == "thio":  # new growth only, which is asked about below
        return "go"
    if head["hair.elasticity"] == "reduced" or head["hair.elasticity"] == "none":
        return "postpone"
    if head["porosity.weakest"] == "overporous":
        return "postpone"
    if head["history.lightened"] in ("highlights", "all_over", "twice"):
        return "postpone"
    return "go"


def new_growth_only(head):
    if head["wish.part"] != "regrowth":
        return "go"
    if head["growth.new"] != "none" and head["growth.new"] != "unknown" and head["growth.new"] < 50:
        return "postpone"
    if head["history.weeks_since_perm"] == "unknown":
        return "ask_first"
    if head["history.relaxer"] == "thio" and head["history.weeks_since_relaxer"] == "unknown":
        return "ask_first"
    return "go"


# Doubts: each asks for test curls, and those take an hour.


def no_record(head):
    return head["history.known"] != "yes"


def new_medicine(head):
    return head["health.treatment"] == "new_medicine"


def after_chemotherapy(head):
    return head["health.treatment"] == "chemotherapy"


def metal_suspected(head):
    return head["history.metallic_dye"] == "suspected"


def highlights(head):
    return head["history.lightened"] == "highlights"


def straightened_with_thio(head):
    return head["history.relaxer"] == "thio"


def slow_spring(head):
    return head["hair.elasticity"] == "reduced"


def overporous(head):
    return head["porosity.weakest"] == "overporous"


def coloured_and_porous(head):
    if head["history.color"] != "permanent":
        return False
    return head["porosity.weakest"] == "porous" or head["porosity.weakest"] == "overporous"


def old_perm(head):
    return head["perm.left"] == "part" or head["perm.left"] == "all"


def own_curl_is_loosened(head):
    """Softening comes before the waving lotion; hair that was loosened before is a doubt of its own."""
    if not _loosens_own_curl(head) or head["history.relaxer"] == "thio":
        return False
    return two_openings_on_weak_hair(head) == "go"


DOUBTS = (
    no_record,
    new_medicine,
    after_chemotherapy,
    metal_suspected,
    highlights,
    straightened_with_thio,
    slow_spring,
    overporous,
    coloured_and_porous,
    old_perm,
    own_curl_is_loosened,
)


# Answers that cannot both be so.


def colour_of_late_and_none(head):
    if head["history.color"] != "none" or head["history.weeks_since_color"] == "unknown":
        return False
    return head["history.weeks_since_color"] < 4


def colour_that_has_grown_out(head):
    return head["history.color"] == "permanent" and head["color.left"] == "none"


def straightening_that_has_grown_out(head):
    if head["relaxer.left"] != "none":
        return False
    return head["history.relaxer"] in ("thio", "hydroxide", "unsure")


def straightening_of_late_and_none(head):
    if head["history.relaxer"] != "none":
        return False
    return head["relaxer.left"] == "part" or head["relaxer.left"] == "all"


def treatment_of_late_and_none(head):
    if head["health.treatment"] != "none" and head["health.treatment"] != "new_medicine":
        return False
    return head["health.months_since"] != "unknown" and head["health.months_since"] < 6


def lightened_and_closed(head):
    if head["porosity.weakest"] != "resistant":
        return False
    return head["history.lightened"] in ("highlights", "all_over", "twice")


def straightened_and_closed(head):
    if head["porosity.weakest"] != "resistant":
        return False
    return head["history.relaxer"] == "thio" or head["history.relaxer"] == "hydroxide"


def permed_and_closed(head):
    if head["porosity.weakest"] != "resistant":
        return False
    return head["perm.left"] == "part" or head["perm.left"] == "all"


def spring_lost_without_a_cause(head):
    return (
        head["hair.elasticity"] == "none"
        and head["history.color"] == "none"
        and head["history.lightened"] == "none"
        and head["history.relaxer"] == "none"
        and head["history.smoothing"] == "no"
        and head["perm.left"] == "none"
    )


def metal_dye_and_no_colour(head):
    return head["history.metallic_dye"] == "yes" and head["history.color"] == "none"


def perm_over_hydroxide(head):
    if head["history.relaxer"] != "hydroxide":
        return False
    return head["perm.left"] == "part" or head["perm.left"] == "all"


def new_growth_of_nothing(head):
    return head["wish.part"] == "regrowth" and head["growth.new"] == "none"


def loosened_lengths_again(head):
    """Loosened with thio before, and the wish is not for the new growth."""
    if not _loosens_own_curl(head) or head["history.relaxer"] != "thio":
        return False
    return head["wish.part"] != "regrowth"


CONTRADICTIONS = (
    colour_of_late_and_none,
    colour_that_has_grown_out,
    straightening_that_has_grown_out,
    straightening_of_late_and_none,
    treatment_of_late_and_none,
    lightened_and_closed,
    straightened_and_closed,
    permed_and_closed,
    spring_lost_without_a_cause,
    metal_dye_and_no_colour,
    perm_over_hydroxide,
    new_growth_of_nothing,
    loosened_lengths_again,
)


def _loosens_own_curl(head):
    if head["hair.pattern"] != "curly" and head["hair.pattern"] != "coily":
        return False
    return head["wish.against_natural"] == "looser"


def _in_a_perm(worry):
    def opinion(head):
        return worry(head) if head["service"] == "perm" else "go"

    return opinion


def _of_doubt(doubt):
    def opinion(head):
        if not doubt(head):
            return "go"
        if head["appointment"] != "unknown" and head["appointment"] < 60:
            return "postpone"  # no time for the test means no service
        return "test_first"

    return opinion


def _of_contradiction(contradiction):
    def opinion(head):
        return "ask_first" if contradiction(head) else "go"

    return opinion


WORRIES = (
    scalp,
    *map(
        _in_a_perm,
        (
            reaction,
            relaxer,
            smoothing,
            metal,
            spring,
            surface,
            surface_and_spring,
            lightened,
            fresh_colour,
            perm_upon_perm,
            treatment,
            two_openings_on_weak_hair,
            new_growth_only,
            *map(_of_doubt, DOUBTS),
            *map(_of_contradiction, CONTRADICTIONS),
        ),
    ),
)
