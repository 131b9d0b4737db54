//! Texts of derivations in Polish.

use super::super::WhyLabels;

/// Polish.
pub static LABELS: WhyLabels = WhyLabels {
    stated: "jak zapisano",
    tested: "maks. z testu: {0}",
    estimated: "{0}, {1} z {2}: {3} szacuje x {4}",
    derived: "maks. {0}: {1}% z {2}",
    training_max: "maks. treningowy: {0}%",
    percent: "{0}% tej wartości",
    of_top_set: "{0}% najcięższej serii",
    from_effort: "{0} przy {1}: {2} daje x {3} maks.",
    last: "ciężar z ostatniego treningu",
    step: "{0} × {1}",
    step_to: "{0} × {1}: {2}%",
    plus: "zmienione zgodnie z zapisem",
    rule: "{0}, reguła: {1}",
    rule_projected: "{0}, reguła, prognoza: {1}",
    max_rule: "maks. treningowy, {0}, reguła: {1}",
    max_rule_projected: "maks. treningowy, {0}, reguła, prognoza: {1}",
    phase: "faza {0}: {1}",
    drop: "drop set: {0}",
    ramp: "{0}% ciężaru roboczego",
    no_less: "ciężar nie mniejszy niż zero",
    less_body_mass: "bez masy ciała",
    no_assistance: "nie mniej niż masa ciała: odciążenie nie daje asysty",
    little_assistance: "asysta poniżej 2,5 kg: sama masa ciała",
    rounded: "zaokrąglone do {0}: siłownia nie podaje rozmiarów",
    nearest: "najbliższy możliwy na tym sprzęcie",
    next_below: "najbliższy niższy możliwy na tym sprzęcie",
    a_week: "/tydzień",
    a_session: "/trening",
};
