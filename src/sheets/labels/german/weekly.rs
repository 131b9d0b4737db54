//! Texts of the weekly table in German.

use super::super::WeeklyLabels;

/// German.
pub static LABELS: WeeklyLabels = WeeklyLabels {
    title: "{0}: Woche für Woche, wie geplant",
    masses_in: "Gewichte in {0}",
    no_sessions: "Keine Einheit.",
    phase_week: "{0}: Woche {1}",
    phase_weeks: "{0}: Wochen {1}-{2}",
    week: "Woche",
    sessions: "Einheiten",
    hard_sets: "Arbeitssätze",
    volume: "Tonnage, {0}",
    average_load: "Mittleres Gewicht, {0}",
    percent_by_sets: "Intensität nach Sätzen, % 1RM",
    percent_by_reps: "Intensität nach Wdh., % 1RM",
    without_load: "Sätze ohne Gewicht",
    minutes: "Minuten je Einheit, geschätzt",
    top_sets: "Topsätze der Hauptübungen: Wdh. @ {0}",
    lift_intensity: "Intensität der Hauptübungen nach Sätzen, % 1RM",
    sets_by_share: "Arbeitssätze je Muskel, jeder nach dem Anteil des Muskels",
    sets_direct: "Arbeitssätze je Muskel, direkt + indirekt",
    volume_by_share: "Tonnage je Muskel, {0}, jeder Satz nach dem Anteil des Muskels",
    patterns: "Arbeitssätze je Bewegungsmuster",
    conventions: "Arbeitssätze zählen ohne Aufwärm- und ohne Dropsätze. Tonnage ist Wdh. mal Gewicht: \
        beide Hanteln eines Paars, beide Seiten eines einseitigen Satzes, Körpergewicht mit \
        Zusatzgewicht, wo das Körpergewicht bekannt ist, und das Mindeste, das einen Satz \
        ausmacht. Das mittlere Gewicht ist das Tonnage durch seine Wdh. Intensität ist, was die \
        Sätze in Prozent des eigenen 1RM der Übung verlangen, wo es bekannt ist: im Mittel der \
        Sätze und im Mittel der Wdh. Direkt ist ein Anteil von eins, indirekt ein kleinerer \
        (Pelland et al. 2024). ~ ist aus einer Anstrengung geschätzt; + und - gelten zum \
        Körpergewicht.",
};
