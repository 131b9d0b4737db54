//! Texts of the weekly table in Spanish.

use super::super::WeeklyLabels;

/// Spanish.
pub static LABELS: WeeklyLabels = WeeklyLabels {
    title: "{0}: semana a semana, según lo previsto",
    masses_in: "cargas en {0}",
    no_sessions: "Ninguna sesión.",
    phase_week: "{0}: semana {1}",
    phase_weeks: "{0}: semanas {1}-{2}",
    week: "Semana",
    sessions: "Sesiones",
    hard_sets: "Series efectivas",
    volume: "Volumen, {0}",
    average_load: "Carga media, {0}",
    percent_by_sets: "Intensidad por series, % 1RM",
    percent_by_reps: "Intensidad por reps., % 1RM",
    without_load: "Series sin carga",
    minutes: "Minutos por sesión, estimados",
    top_sets: "Series más pesadas de los ejercicios principales: reps. @ {0}",
    lift_intensity: "Intensidad de los ejercicios principales por series, % 1RM",
    sets_by_share: "Series efectivas por músculo, cada una según la parte del músculo",
    sets_direct: "Series efectivas por músculo, directas + indirectas",
    volume_by_share: "Volumen por músculo, {0}, cada serie según la parte del músculo",
    patterns: "Series efectivas por patrón de movimiento",
    conventions: "Las series efectivas no cuentan calentamientos ni descendentes. El volumen es reps. por \
        carga: las dos mancuernas de un par, los dos lados de una serie unilateral, el peso \
        corporal con el lastre donde se conoce, y lo mínimo que hace una serie. La carga media \
        es el volumen entre sus reps. La intensidad es lo que piden las series en porcentaje de \
        la 1RM del ejercicio, donde se conoce: la media por series, y la media por reps. \
        Directa es una parte de uno, indirecta una parte menor (Pelland et al. 2024). ~ se \
        estima por un esfuerzo; + y - van sobre el peso corporal.",
};
