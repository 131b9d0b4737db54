//! The words of the weekly table in Polish.

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
    volume: "Objętość, {0}",
    average_load: "Średni ciężar, {0}",
    percent_by_sets: "Intensywność wg serii, % 1RM",
    percent_by_reps: "Intensywność wg powt., % 1RM",
    without_load: "Serie bez ciężaru",
    minutes: "Minuty na trening, szacunkowo",
    top_sets: "Najcięższe serie głównych bojów: powt. @ {0}",
    lift_intensity: "Intensywność głównych bojów wg serii, % 1RM",
    sets_by_share: "Serie robocze na mięsień, każda według udziału mięśnia",
    sets_direct: "Serie robocze na mięsień, bezpośrednie + pośrednie",
    volume_by_share: "Objętość na mięsień, {0}, każda seria według udziału mięśnia",
    patterns: "Serie robocze na wzorzec ruchu",
    conventions: "Serie robocze to serie bez rozgrzewki i bez drop setów. Objętość to powt. razy ciężar: \
        oba hantle pary, obie strony serii jednostronnej, masa ciała z dodanym ciężarem, gdy \
        jest znana, i najmniej, ile trzeba na serię. Średni ciężar to objętość podzielona przez \
        jej powt. Intensywność to procent własnego 1RM boju, którego wymagają serie, gdy jest \
        znane: średnia z serii i średnia z powt. Bezpośrednie to udział równy jeden, pośrednie \
        mniejszy (Pelland et al. 2024). ~ to szacunek z wysiłku; + i - dotyczą masy ciała.",
};
