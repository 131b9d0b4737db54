//! Texts of derivations in German.

use super::super::WhyLabels;

/// German.
pub static LABELS: WhyLabels = WhyLabels {
    stated: "wie angegeben",
    tested: "getestetes Maximum: {0}",
    estimated: "{0}, {1} mit {2}: {3} schätzt x {4}",
    derived: "Maximum {0}: {1}\u{a0}% von {2}",
    training_max: "Trainingsmaximum: {0}\u{a0}%",
    percent: "{0}\u{a0}% davon",
    of_top_set: "{0}\u{a0}% des Topsatzes",
    from_effort: "{0} bei {1}: {2} ergibt x {3} des Maximums",
    last: "Gewicht der letzten Einheit",
    step: "{0}, {1}-mal",
    step_to: "{0}, {1}-mal: {2}\u{a0}%",
    plus: "geändert, wie die Zeile sagt",
    rule: "nach {0}: {1}",
    rule_projected: "nach {0}, Prognose: {1}",
    max_rule: "Trainingsmaximum nach {0}: {1}",
    max_rule_projected: "Trainingsmaximum nach {0}, Prognose: {1}",
    phase: "Phase {0}: {1}",
    drop: "Dropsatz: {0}",
    ramp: "{0}\u{a0}% des Arbeitsgewichts",
    no_less: "kein Gewicht unter null",
    less_body_mass: "ohne das Körpergewicht",
    no_assistance: "nicht weniger als das Körpergewicht: ein Deload gibt keine Unterstützung",
    little_assistance: "Unterstützung unter 2,5 kg: nur das Körpergewicht",
    rounded: "gerundet auf {0}: das Studio nennt keine Größen",
    nearest: "der nächste Wert, den das Material hergibt",
    next_below: "der nächstkleinere Wert, den das Material hergibt",
    a_week: "/Woche",
    a_session: "/Einheit",
};
