//! Texts of derivations in Spanish.

use super::super::WhyLabels;

/// Spanish.
pub static LABELS: WhyLabels = WhyLabels {
    stated: "como está escrito",
    tested: "máximo medido: {0}",
    estimated: "{0}, {1} con {2}: {3} estima x {4}",
    derived: "máximo de {0}: {1}\u{a0}% de {2}",
    training_max: "máximo de entrenamiento: {0}\u{a0}%",
    percent: "{0}\u{a0}% de ese valor",
    of_top_set: "{0}\u{a0}% de la serie tope",
    from_effort: "{0} a {1}: {2} da x {3} del máximo",
    last: "la carga de la última sesión",
    step: "{0} × {1}",
    step_to: "{0} × {1}: {2}\u{a0}%",
    plus: "cambiado como dice la línea",
    rule: "tras {0}: {1}",
    rule_projected: "tras {0}, previsión: {1}",
    max_rule: "máximo de entrenamiento tras {0}: {1}",
    max_rule_projected: "máximo de entrenamiento tras {0}, previsión: {1}",
    phase: "fase {0}: {1}",
    drop: "descendente: {0}",
    ramp: "{0}\u{a0}% de la carga de trabajo",
    no_less: "ninguna carga por debajo de cero",
    less_body_mass: "menos el peso corporal",
    no_assistance: "no menos que el peso corporal: la descarga no da asistencia",
    little_assistance: "asistencia de menos de 2,5 kg: solo el peso corporal",
    rounded: "redondeado a {0}: el gimnasio no indica tamaños",
    nearest: "la más cercana que permite el material",
    next_below: "la inmediata inferior que permite el material",
    a_week: "/semana",
    a_session: "/sesión",
};
