//! Texts of derivations in French.

use super::super::WhyLabels;

/// French.
pub static LABELS: WhyLabels = WhyLabels {
    stated: "telle qu’écrite",
    tested: "maximum testé\u{a0}: {0}",
    estimated: "{0}, {1} à {2}\u{a0}: {3} estime x {4}",
    derived: "max {0}\u{a0}: {1}\u{a0}% de {2}",
    training_max: "max d’entraînement\u{a0}: {0}\u{a0}%",
    percent: "{0}\u{a0}% de cette valeur",
    of_top_set: "{0}\u{a0}% de la série la plus lourde",
    from_effort: "{0} à {1}\u{a0}: {2} donne x {3} du maximum",
    last: "charge de la dernière séance",
    step: "{0}, {1} fois",
    step_to: "{0}, {1} fois\u{a0}: {2}\u{a0}%",
    plus: "modifiée comme indiqué sur la ligne",
    rule: "après {0}\u{a0}: {1}",
    rule_projected: "après {0}, projection\u{a0}: {1}",
    max_rule: "max d’entraînement après {0}\u{a0}: {1}",
    max_rule_projected: "max d’entraînement après {0}, projection\u{a0}: {1}",
    phase: "phase {0}\u{a0}: {1}",
    drop: "dégressive\u{a0}: {0}",
    ramp: "{0}\u{a0}% de la charge de travail",
    no_less: "charge jamais inférieure à zéro",
    less_body_mass: "moins le poids du corps",
    no_assistance: "pas moins que le poids du corps (alléger n'est pas assister)",
    little_assistance: "assistance de moins de 2,5 kg, donc le poids du corps seul",
    rounded: "arrondi à {0} (la salle n'indique pas de tailles)",
    nearest: "la plus proche que la salle permet",
    next_below: "la plus proche en dessous que la salle permet",
    a_week: "/semaine",
    a_session: "/séance",
};
