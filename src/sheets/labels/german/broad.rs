//! Texts of the block, rack, overview and wall sheets in German.
//!
//! The wording is from memory and has not been reviewed by a coach who is a native speaker.

use super::super::{BroadLabels, Counted};

/// German.
pub static LABELS: BroadLabels = BroadLabels {
    title: "{0}: Trainingsblätter",
    cards: "Trainingskarten",
    block: "Blockplan",
    block_sheets: "Blockpläne",
    rack: "Rack-Plan",
    rack_sheets: "Rack-Pläne",
    overview: "Übersicht",
    overviews: "Übersichten",
    wall: "Wandkarten",
    heaviest: "schwerstes Gewicht in diesem Plan",
    cautions: "bei stechendem Schmerz. Schmerzen in der Brust, Schwindel oder Ohnmachtsgefühl, \
        Herzrasen oder Herzstolpern, ungewöhnliche Atemnot: beende das Training und hol sofort \
        Hilfe. Eine Stange über oder auf dir braucht Sicherheitsablagen oder jemanden, der \
        sichert. Gewichte sind Schätzwerte, die Technik entscheidet: nimm weniger Gewicht, wenn \
        sie nachlässt. Die Hausordnung geht vor.",
    weeks_of: "Wochen {0}–{1} von {2}",
    weeks: "Wochen {0}–{1}",
    week: "Woche {0}",
    day_month: "{0}. {1}",
    weekday_month: "{0}, {1}",
    lighter: "leichter",
    projected_sign: "°",
    projected_about: "{0} hängt von Einheiten ab, die noch nicht protokolliert sind.",
    block_about: "Scheiben: Angabe pro Seite.",
    hatched: "Schraffiert: eine leichtere Woche.",
    nothing: "–",
    more_on_card: Counted::two(
        "und {0} weiterer Satz: siehe Karte",
        "und {0} weitere Sätze: siehe Karte",
    ),
    athletes: Counted::two("{0} Person", "{0} Personen"),
    rack_of: "Rack {0}",
    no_rack: "Ohne Rack",
    rack_about: "An jeder Stange stehen die Namen in der Reihenfolge mit den wenigsten \
        Scheibenwechseln, Satz für Satz.",
    overview_about: "Wie geplant. Arbeitssätze zählen ohne Aufwärm- und ohne Dropsätze. Tonnage \
        ist Wdh. mal Gewicht dessen, was sich wirklich bewegt. Intensität ist das Mittel der \
        Arbeitssätze in Prozent des eigenen 1RM der Übung, wo es bekannt ist. Die Sätze eines \
        Muskels zählen nach seinem Anteil.",
    intensity: "Mittlere Intensität, %\u{a0}1RM",
    volume: "Tonnage, {0}",
    muscles: "Arbeitssätze je Woche und Muskel",
    muscles_more: Counted::two(
        "{0} weiterer Muskel hat weniger Sätze.",
        "{0} weitere Muskeln haben weniger Sätze.",
    ),
    top_sets: "Geplante Topsätze der Hauptübungen, {0}",
    volume_small: "je Woche",
    intensity_small: "Mittel der Arbeitssätze",
    no_intensity: "kein 1RM bekannt",
    no_muscles: "Bei keiner Übung sind Muskeln angegeben.",
    no_lifts: "Keine Übung mit im Voraus bekanntem Gewicht.",
};
