//! Warnings about members of a superset with different rests: the card prints only one for the group.

use std::collections::BTreeMap;

use crate::diagnostics::{Code, Diagnostic, Edit};
use crate::plan::Order;
use crate::quantity::Duration;
use crate::resolve::{Day, DayGroup, How, Line, Programme, ResolvedAthlete};
use crate::source::Span;

/// A rest that a member states: whose, how long, and where.
type Stated = (Order, Duration, Span);

/// One warning a group. Circuits, intervals and timed groups say themselves what is between their
/// members, and a member may rest there.
pub fn findings(programme: &Programme, wanted: &dyn Fn(&str) -> bool) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for day in &programme.days {
        let alternated = day.groups.iter().filter(|g| matches!(g.how, None | Some(How::Paired)));
        for group in alternated {
            let trainees = programme.trainees.iter().enumerate();
            let mut trainees = trainees.filter(|(_, trainee)| wanted(&trainee.athlete.name));
            found.extend(trainees.find_map(|(index, _): (usize, &ResolvedAthlete)| {
                let weeks = usize::try_from(programme.weeks).unwrap_or(0);
                (0..weeks).find_map(|week| one(day, group, index, week))
            }));
        }
    }
    found
}

/// What the members of a group state in a week, if that differs.
fn one(day: &Day, group: &DayGroup, trainee: usize, week: usize) -> Option<Diagnostic> {
    let members: Vec<&Line> =
        day.lines.iter().filter(|line| line.order.letter == group.letter).collect();
    if members.len() < 2 {
        return None;
    }
    let stated: Vec<Stated> = members
        .iter()
        .filter_map(|line| {
            let spec = line.variant(trainee).weeks.get(week)?;
            let set = spec.groups.last()?;
            Some((line.order, set.rest?, set.rest_span?))
        })
        .collect();
    // Without a group line, the last member's rest is the group's.
    let of_last =
        stated.last().filter(|(order, ..)| members.last().is_some_and(|line| line.order == *order));
    let printed = group.rest.or(of_last.map(|(_, rest, _)| *rest))?;
    let (_, _, place) = stated.iter().find(|(_, rest, _)| *rest != printed)?;
    if stated.len() < 2 && group.rest.is_none() {
        return None;
    }
    let after = match (group.how, members.len()) {
        (Some(How::Paired), _) => "each",
        (_, 2) => "both",
        _ => "all",
    };
    let letter = group.letter;
    let whose = if group.rest.is_some() { "the group line's" } else { "the last member's" };
    let said: Vec<String> =
        stated.iter().map(|(order, rest, _)| format!("{order} {rest}")).collect();
    let message = format!(
        "the exercises of {letter} have different rests ({}); the card prints `rest {printed} after \
         {after}`, {whose}",
        said.join(", ")
    );
    let mut found = Diagnostic::new(Code::GroupRest, *place, message);
    for (order, rest, span) in stated.iter().filter(|(_, _, span)| span != place) {
        found = found.and(*span, format!("{order} has rest {rest}"));
    }
    let mut choices: BTreeMap<Duration, Vec<Edit>> = BTreeMap::new();
    let own = stated.iter().map(|(_, rest, _)| *rest).chain([printed]);
    let offered = own.filter(|rest| group.rest.is_none() || *rest == printed);
    for rest in offered {
        let others = stated.iter().filter(|(_, other, _)| *other != rest);
        let edits = others.map(|(_, _, span)| Edit { span: *span, text: format!("rest {rest}") });
        choices.insert(rest, edits.collect());
    }
    let mut choices: Vec<(Duration, Vec<Edit>)> = choices.into_iter().collect();
    choices.sort_by_key(|(rest, _)| *rest != printed);
    for (rest, edits) in choices {
        found = found.suggest(format!("rest {rest} after {after}"), edits);
    }
    Some(found.help(format!(
        "write one rest for the group: on its last exercise, or as `{letter}: rest {printed}`. For a rest \
         between the\nexercises, write `{letter}: circuit 3 rounds, change 20 s, rest {printed}`"
    )))
}
