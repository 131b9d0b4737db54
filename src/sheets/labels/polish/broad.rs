//! Texts of the block, rack, overview and wall sheets in Polish.
//!
//! The wording is from memory and has not been reviewed by a coach who is a native speaker.

use super::super::{BroadLabels, Counted};

/// Polish.
pub static LABELS: BroadLabels = BroadLabels {
    title: "{0}: arkusze treningowe",
    cards: "Karty treningowe",
    block: "Arkusz bloku",
    block_sheets: "Arkusze bloku",
    rack: "Arkusz stojaków",
    rack_sheets: "Arkusze stojaków",
    overview: "Przegląd",
    overviews: "Przeglądy",
    wall: "Karty na ścianę",
    heaviest: "największy ciężar w planie",
    cautions: "przy ostrym bólu. Ból w klatce piersiowej, zasłabnięcie, kołatanie serca lub \
        nietypowa duszność: zakończ trening i natychmiast wezwij pomoc. Sztanga nad tobą lub na \
        tobie wymaga zabezpieczeń albo asekuracji. Ciężary są orientacyjne, decyduje technika: \
        zmniejsz ciężar, gdy technika się psuje. Regulamin siłowni ma pierwszeństwo.",
    weeks_of: "Tygodnie {0}–{1} z {2}",
    weeks: "Tygodnie {0}–{1}",
    week: "Tydzień {0}",
    day_month: "{0} {1}",
    weekday_month: "{0}, {1}",
    lighter: "lżejszy",
    projected_sign: "°",
    projected_about: "{0} zależy od treningów, które nie są jeszcze zapisane.",
    block_about: "Podane talerze są na jedną stronę.",
    hatched: "Zakreskowane: lżejszy tydzień.",
    nothing: "–",
    more_on_card: Counted {
        one: "i jeszcze {0} seria: patrz karta",
        few: "i jeszcze {0} serie: patrz karta",
        many: "i jeszcze {0} serii: patrz karta",
    },
    athletes: Counted { one: "{0} osoba", few: "{0} osoby", many: "{0} osób" },
    rack_of: "Stojak {0}",
    no_rack: "Bez stojaka",
    rack_about: "Przy każdym gryfie ćwiczący stoją w kolejności, która seria po serii wymaga \
        najmniej zmian talerzy.",
    overview_about: "Według planu. Serie robocze to serie bez rozgrzewki i bez drop setów. \
        Tonaż to powt. razy ciężar tego, co naprawdę się porusza. Intensywność to średnia \
        serii roboczych w procentach 1RM danego ćwiczenia, gdy jest znane. Serie mięśnia liczą się \
        według jego udziału.",
    intensity: "Średnia intensywność, %\u{a0}1RM",
    volume: "Tonaż, {0}",
    muscles: "Serie robocze tygodniowo na partię mięśniową",
    muscles_more: Counted {
        one: "Jeszcze {0} mięsień ma mniej serii.",
        few: "Jeszcze {0} mięśnie mają mniej serii.",
        many: "Jeszcze {0} mięśni ma mniej serii.",
    },
    top_sets: "Planowane najcięższe serie głównych ćwiczeń, {0}",
    volume_small: "na tydzień",
    intensity_small: "średnia serii roboczych",
    no_intensity: "brak znanego 1RM",
    no_muscles: "Żadne ćwiczenie nie ma podanych mięśni.",
    no_lifts: "Brak ćwiczeń z ciężarem znanym z góry.",
};
