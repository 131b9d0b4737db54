//! Texts of the block, rack, overview and wall sheets in French.
//!
//! The wording is from memory and has not been reviewed by a coach who is a native speaker.

use super::super::{BroadLabels, Counted};

/// French.
pub static LABELS: BroadLabels = BroadLabels {
    title: "{0}\u{a0}: feuilles d’entraînement",
    cards: "Fiches de séance",
    block: "Plan du bloc",
    block_sheets: "Plans de bloc",
    rack: "Fiche de rack",
    rack_sheets: "Fiches de rack",
    overview: "Vue d’ensemble",
    overviews: "Vues d’ensemble",
    wall: "Affiches",
    heaviest: "charge la plus lourde du plan",
    cautions: "en cas de douleur vive. Douleur dans la poitrine, sensation de malaise, \
        palpitations ou essoufflement inhabituel\u{a0}: termine la séance, alerte immédiatement \
        les secours. Une barre au-dessus de toi ou sur toi exige des barres de sécurité ou un \
        pareur. Les charges sont des estimations, c’est la technique qui prime\u{a0}: allège si \
        elle se dégrade. Le règlement de la salle prévaut.",
    weeks_of: "Semaines {0}–{1} sur {2}",
    weeks: "Semaines {0}–{1}",
    week: "Semaine {0}",
    day_month: "{0} {1}",
    weekday_month: "{0} {1}",
    lighter: "allégée",
    projected_sign: "°",
    projected_about: "{0} dépend de séances qui ne sont pas encore notées.",
    block_about: "Disques\u{a0}: par côté.",
    hatched: "Hachuré\u{a0}: une semaine allégée.",
    nothing: "–",
    more_on_card: Counted::two(
        "et {0} série de plus\u{a0}: voir la fiche",
        "et {0} séries de plus\u{a0}: voir la fiche",
    ),
    athletes: Counted::two("{0} athlète", "{0} athlètes"),
    rack_of: "Rack {0}",
    no_rack: "Sans rack",
    rack_about: "À chaque barre, les athlètes se suivent dans l’ordre qui demande le moins de \
        changements de disques, série après série.",
    overview_about: "Comme prévu. Les séries de travail sont sans échauffement ni dégressives. Le \
        tonnage est rép. fois charge de ce qui bouge vraiment. L’intensité est la moyenne des \
        séries de travail, en pour cent de la 1RM du mouvement, là où elle est connue. Les séries \
        d’un muscle comptent selon sa part.",
    intensity: "Intensité moyenne, %\u{a0}1RM",
    volume: "Tonnage, {0}",
    muscles: "Séries de travail par semaine et par muscle",
    muscles_more: Counted::two(
        "{0} autre muscle a moins de séries.",
        "{0} autres muscles ont moins de séries.",
    ),
    top_sets: "Séries les plus lourdes prévues, mouvements principaux, {0}",
    volume_small: "par semaine",
    intensity_small: "moyenne des séries de travail",
    no_intensity: "aucune 1RM connue",
    no_muscles: "Aucun exercice n’indique ses muscles.",
    no_lifts: "Aucun mouvement dont la charge est connue d’avance.",
};
