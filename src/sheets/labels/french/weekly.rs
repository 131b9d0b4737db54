//! Texts of the weekly table in French.

use super::super::WeeklyLabels;

/// French.
pub static LABELS: WeeklyLabels = WeeklyLabels {
    title: "{0}\u{a0}: semaine par semaine, comme prévu",
    masses_in: "charges en {0}",
    no_sessions: "Aucune séance.",
    phase_week: "{0}\u{a0}: semaine {1}",
    phase_weeks: "{0}\u{a0}: semaines {1}-{2}",
    week: "Semaine",
    sessions: "Séances",
    hard_sets: "Séries de travail",
    volume: "Tonnage, {0}",
    average_load: "Charge moyenne, {0}",
    percent_by_sets: "Intensité par séries, % 1RM",
    percent_by_reps: "Intensité par rép., % 1RM",
    without_load: "Séries sans charge",
    minutes: "Minutes par séance, estimées",
    top_sets: "Séries les plus lourdes des mouvements principaux\u{a0}: rép. @ {0}",
    lift_intensity: "Intensité des mouvements principaux par séries, % 1RM",
    sets_by_share: "Séries de travail par muscle, chacune selon la part du muscle",
    sets_direct: "Séries de travail par muscle, direct + indirect",
    volume_by_share: "Tonnage par muscle, {0}, chaque série selon la part du muscle",
    patterns: "Séries de travail par schéma de mouvement",
    conventions: "Les séries de travail sont sans échauffement ni dégressives. Le tonnage est rép. fois \
        charge\u{a0}: les deux haltères d’une paire, les deux côtés d’une série unilatérale, le \
        poids du corps avec le lest là où il est connu, et le minimum qui fait une série. La \
        charge moyenne est le tonnage divisé par ses rép. L’intensité est ce que les séries \
        demandent en pour cent de la 1RM du mouvement, là où elle est connue\u{a0}: la moyenne \
        des séries, et celle des rép. Direct est une part de un, indirect une part moindre \
        (Pelland et al. 2024). ~ est estimé d’après un effort\u{202f}; + et - s’ajoutent au poids \
        du corps.",
};
