//! How a load came about, in Polish.

use super::super::WhyLabels;

/// Polish.
pub static LABELS: WhyLabels = WhyLabels {
    stated: "jak zapisano",
    tested: "sprawdzony maks.: {0}",
    estimated: "{0}, {1} z {2}: {3} szacuje x {4}",
    derived: "maks. {0}: {1}% z {2}",
    training_max: "maks. treningowy: {0}%",
    percent: "{0}% z tego",
    of_top_set: "{0}% najcięższej serii",
    from_effort: "{0} powt. przy {1}: {2} daje x {3} maks.",
    last: "ciężar z ostatniego treningu",
    step: "{0}, {1} razy",
    step_to: "{0}, {1} razy: {2}%",
    plus: "zmienione, jak mówi linia",
    rule: "po: {0}: {1}",
    rule_projected: "po: {0}, prognoza: {1}",
    max_rule: "maks. treningowy, po: {0}: {1}",
    max_rule_projected: "maks. treningowy, po: {0}, prognoza: {1}",
    phase: "faza {0}: {1}",
    drop: "drop set: {0}",
    ramp: "{0}% ciężaru roboczego",
    no_less: "ciężar nie jest poniżej zera",
    less_body_mass: "bez masy ciała",
    no_assistance: "nie mniej niż masa ciała: odciążenie to nie asysta",
    little_assistance: "asysta poniżej 2,5 kg: sama masa ciała",
    rounded: "zaokrąglone do {0}: siłownia nie podaje rozmiarów",
    nearest: "najbliższy, jaki da się złożyć w siłowni",
    next_below: "najbliższy niższy, jaki da się złożyć w siłowni",
    a_week: "/tydzień",
    a_session: "/trening",
};
