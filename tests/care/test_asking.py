"""What a caller asks stands once on the page of the call: which questions of the rulebook ask the same, read by a person."""

from itertools import combinations

from followup.care.callbacks.asking import without_repeats
from followup.protocols.book import rulebook

SAME = {
    # left out: asked by
    "Is it getting worse?": "When did it start, and is it getting worse?",
    "Can you see your hand move?": "Can you still see your hand move in front of the eye?",
    "Is the eyelid swollen?": "Is the eyelid swollen or stuck?",
    "Is there pain or a headache?": "Is there pain, headache or sickness?",
    "Is there a headache, or do you feel sick?": "Is there pain, headache or sickness?",
    "Is there a shadow or curtain?": "A shower of floaters, a shadow or curtain?",
    "Red or black, threads or a cloud?": "Threads or a cloud, red or black?",
    "Can it wait?": "Can it wait, or go by a lower road?",
    "Any pain or redness of the eye?": "How is the eye: pain, sight, redness?",
    "Does the phone work?": "Does the phone work? Who can help with it?",
}
ALSO_SINCE = ("Since when, and from which side?", "Since when, and where?", "Since when, suddenly or slowly?")


def test_of_two_questions_of_the_rulebook_one_is_left_out_only_where_the_other_asks_it() -> None:
    asked = dict.fromkeys(question for rule in rulebook().rules for question in rule.ask)
    left_out = set()
    for pair in combinations(asked, 2):
        kept = without_repeats(pair)
        left_out |= {(other, kept[0]) for other in pair if other not in kept}
    assert left_out == set(SAME.items()) | {("Since when?", longer) for longer in ALSO_SINCE}


def test_the_order_stays_and_the_same_question_stands_once() -> None:
    assert without_repeats(["Since when?", "What happened?", "Since when?"]) == ["Since when?", "What happened?"]
    both = ["Red or black, threads or a cloud?", "Threads or a cloud, red or black?"]
    assert without_repeats(both) == both[1:]
    assert without_repeats([]) == []
