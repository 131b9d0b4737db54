//! Texts of the block, rack, overview and wall sheets in Spanish.
//!
//! The wording is from memory and has not been reviewed by a coach who is a native speaker.

use super::super::{BroadLabels, Counted};

/// Spanish.
pub static LABELS: BroadLabels = BroadLabels {
    title: "{0}: hojas de entrenamiento",
    cards: "Fichas de sesión",
    block: "Plan del bloque",
    block_sheets: "Planes de bloque",
    rack: "Hoja de rack",
    rack_sheets: "Hojas de rack",
    overview: "Vista general",
    overviews: "Vistas generales",
    wall: "Carteles",
    heaviest: "carga más alta del plan",
    cautions: "si notas un dolor punzante. Dolor en el pecho, sensación de desmayo, palpitaciones \
        o una falta de aire inusual: termina la sesión y pide ayuda de inmediato. Una barra por \
        encima de ti o apoyada en ti necesita topes de seguridad o un ayudante que te asista. Las \
        cargas son estimaciones, la técnica decide: baja el peso cuando la técnica empeore. Las \
        normas del gimnasio tienen prioridad.",
    weeks_of: "Semanas {0}–{1} de {2}",
    weeks: "Semanas {0}–{1}",
    week: "Semana {0}",
    day_month: "{0} {1}",
    weekday_month: "{0}, {1}",
    lighter: "descarga",
    projected_sign: "°",
    projected_about: "{0} depende de sesiones que aún no están registradas.",
    block_about: "Los discos son los de un lado.",
    hatched: "Rayado: una semana de descarga.",
    nothing: "–",
    more_on_card: Counted::two("y {0} serie más: ver la ficha", "y {0} series más: ver la ficha"),
    athletes: Counted::two("{0} atleta", "{0} atletas"),
    rack_of: "Rack {0}",
    no_rack: "Sin rack",
    rack_about: "En cada barra, los atletas van en el orden que exige menos cambios de discos, \
        serie tras serie.",
    overview_about: "Según lo previsto. Las series efectivas no cuentan calentamientos ni \
        descendentes. El volumen es reps. por carga de lo que se mueve de verdad. La intensidad \
        es la media de las series efectivas, en porcentaje de la 1RM del ejercicio, donde \
        se conoce. Las series de un músculo cuentan según su parte.",
    intensity: "Intensidad media, %\u{a0}1RM",
    volume: "Volumen, {0}",
    muscles: "Series efectivas por semana y músculo",
    muscles_more: Counted::two(
        "{0} músculo más tiene menos series.",
        "{0} músculos más tienen menos series.",
    ),
    top_sets: "Series más pesadas previstas de los ejercicios principales, {0}",
    volume_small: "por semana",
    intensity_small: "media de las series efectivas",
    no_intensity: "ninguna 1RM conocida",
    no_muscles: "Ningún ejercicio indica sus músculos.",
    no_lifts: "Ningún ejercicio con carga conocida de antemano.",
};
