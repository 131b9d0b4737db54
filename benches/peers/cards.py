"""What every peer prints: the cards of a plan (`setwright plan --format json`), as plain texts.

The content is that of our card (title, exercises, targets, plates, boxes, cues, rules, cautions);
the design is each peer's own. All three read the same texts from here.
"""

import json

STOP = (
    "Stop on sharp pain. Chest pain, faintness, a fluttering heart or unusual breathlessness: end "
    "the session, get help at once. A bar over you or on you needs safeties or a spotter. Loads are "
    "estimates, technique decides: go lighter when it slips. If your health gives cause, train only "
    "once a professional has cleared you. The gym’s rules come first."
)
FOOT = ["Body mass, kg", "Session RPE", "Sleep", "Pain (0–10, where)"]


def number(value):
    return f"{value:g}"


def clock(seconds):
    return f"{seconds // 60}:{seconds % 60:02}" if seconds >= 120 else f"{seconds} s"


def amount(one):
    """Repetitions or time of a set."""
    if one.get("work_min_s") is not None:
        return f"{one['work_min_s']} s"
    low, high = one["reps_min"], one["reps_max"]
    if one["open_ended"]:
        return f"{low}+"
    return str(low) if low == high else f"{low}–{high}"


def load(one):
    if one["load_kg"] is None:
        return "body mass"
    about = "about " if one["about"] else ""
    pair = "2 × " if one.get("implement") in ("dumbbells", "kettlebells") else ""
    pin = "pin " if one.get("implement") == "stack" else ""
    return f"{about}{pin}{pair}{number(one['load_kg'])} kg"


def plates(one):
    return " + ".join(number(plate) for plate in one["plates_per_side_kg"])


def counted(sets):
    """`2 × 5, 1 × 5+`: equal sets together."""
    groups = []
    for one in sets:
        if groups and groups[-1][1] == amount(one):
            groups[-1][0] += 1
        else:
            groups.append([1, amount(one)])
    return ", ".join(f"{count} × {reps}" for count, reps in groups)


def warm_up(one):
    side = f" ({plates(one)})" if one["plates_per_side_kg"] else ""
    return f"{amount(one)} × {load(one)}{side}"


def block(exercise):
    """An exercise's part of a card."""
    work = [one for one in exercise["sets"] if one["kind"] != "warm-up"]
    ramp = [one for one in exercise["sets"] if one["kind"] == "warm-up"]
    first = work[0]
    detail = []
    if first.get("rpe") is not None:
        detail.append(f"RPE {number(first['rpe'])}")
    if first.get("rir") is not None:
        detail.append(f"RIR {number(first['rir'])}")
    if first.get("rest_s"):
        detail.append(f"rest {clock(first['rest_s'])}")
    if first.get("tempo"):
        detail.append(f"tempo {first['tempo']}")
    side = ""
    if first.get("implement") == "bar":
        side = f"per side {plates(first)} · {number(first['bar_kg'])} kg bar"
    each = " each side" if exercise["each_side"] else ""
    if exercise["each_side"]:
        boxes = ["L", "R"] * len(work)
    else:
        boxes = [amount(one) if one["open_ended"] else str(at + 1) for at, one in enumerate(work)]
    notes = []
    if ramp:
        notes.append("Warm-up " + ", ".join(map(warm_up, ramp)))
    for label, said in (
        ("Set-up", exercise.get("setup")),
        ("Cue", " ".join(exercise.get("cues", []))),
        ("Safety", exercise.get("safety")),
    ):
        if said:
            notes.append(f"{label} {said}")
    rules = "; ".join(exercise.get("rules", []))
    return {
        "order": exercise["order"],
        "name": exercise["name"],
        "target": f"{counted(work)}{each} · {load(first)}",
        "plates": side,
        "detail": " · ".join(detail),
        "notes": notes,
        "boxes": boxes + ["RPE"],
        "next": f"Next time {rules}" if rules else "",
    }


def cards(path):
    with open(path, encoding="utf-8") as file:
        plan = json.load(file)
    found = []
    for athlete in plan["athletes"]:
        for session in athlete["sessions"]:
            phase = session.get("phase")
            parts = [plan["programme"], *([phase] if phase else []), athlete["gym"]]
            found.append(
                {
                    "athlete": athlete["name"],
                    "day": session["day"],
                    "under": " · ".join(parts),
                    "when": f"Week {session['week']} of {plan['weeks']} · {session['date']}",
                    "blocks": [block(exercise) for exercise in session["exercises"]],
                }
            )
    return found
