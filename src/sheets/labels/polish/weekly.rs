//! Texts of the weekly table in Polish.

use super::super::WeeklyLabels;

/// Polish.
pub static LABELS: WeeklyLabels = WeeklyLabels {
    title: "{0}: tydzień po tygodniu, według planu",
    masses_in: "ciężary w {0}",
    no_sessions: "Brak treningów.",
    phase_week: "{0}: tydzień {1}",
    phase_weeks: "{0}: tygodnie {1}-{2}",
    week: "Tydzień",
    sessions: "Treningi",
    hard_sets: "Serie robocze",
    volume: "Tonaż, {0}",
    average_load: "Średni ciężar, {0}",
    percent_by_sets: "Intensywność wg serii, % 1RM",
    percent_by_reps: "Intensywność wg powt., % 1RM",
    without_load: "Serie bez ciężaru",
    minutes: "Minuty na trening, szacunkowo",
    top_sets: "Najcięższe serie głównych ćwiczeń: powt. @ {0}",
    lift_intensity: "Intensywność głównych ćwiczeń wg serii, % 1RM",
    sets_by_share: "Serie robocze na partię mięśniową, każda według udziału partii",
    sets_direct: "Serie robocze na partię mięśniową, bezpośrednie + pośrednie",
    volume_by_share: "Tonaż na partię mięśniową, {0}, każda seria według udziału partii",
    patterns: "Serie robocze na wzorzec ruchu",
    conventions: "Serie robocze to serie bez rozgrzewki i bez drop setów. Tonaż to powt. razy ciężar: \
        obie hantle pary, obie strony serii jednostronnej, masa ciała z dodanym ciężarem, gdy \
        jest znana, i najmniej, ile trzeba na serię. Średni ciężar to tonaż podzielony przez \
        jego powt. Intensywność to procent 1RM danego ćwiczenia, którego wymagają serie, gdy jest \
        znane: średnia z serii i średnia z powt. Bezpośrednie to udział równy jeden, pośrednie \
        mniejszy (Pelland et al. 2024). ~ to szacunek z wysiłku; + i - dotyczą masy ciała.",
};
