//! Resolves rules and schemes, and fills in their parameters.

use std::collections::BTreeMap;

use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::{Decimal, Exact};
use crate::source::{Span, Spanned};
use crate::syntax::ast::{
    Action, Amount, Argument, ChangeBy, Condition, Item, LineKey, MassText, Name, Node, Quantity,
    Value, WeekSpan,
};
use crate::syntax::fold_name;

use super::Rule;
use super::definitions::SchemeText;

/// The parameters that rules may name.
#[derive(Clone, Debug, Default)]
pub struct Parameters {
    values: BTreeMap<String, (String, Spanned<Amount>)>,
    /// Where the line follows the scheme.
    follow: Option<Span>,
}

impl Parameters {
    /// A scheme's defaults with a line's arguments over them.
    pub fn of(
        scheme: &SchemeText<'_>,
        follow: Span,
        arguments: &[Argument],
        problems: &mut Vec<Diagnostic>,
    ) -> Self {
        let mut values = BTreeMap::new();
        for node in scheme.lines {
            if let Item::Entry { key, value } = &node.item.value
                && let (LineKey::Parameter(name), Value::Amount(amount)) =
                    (&key.value, &value.value)
            {
                values.insert(fold_name(&name.value), (name.value.clone(), amount.clone()));
            }
        }
        let mut parameters = Self { values, follow: Some(follow) };
        for (name, amount) in arguments {
            match parameters.values.get_mut(&fold_name(&name.value)) {
                Some(slot) => slot.1 = amount.clone(),
                None => problems.push(parameters.unknown(
                    name,
                    format!("the scheme `{}` has no parameter `{}`", scheme.name.value, name.value),
                )),
            }
        }
        parameters
    }

    fn unknown(&self, name: &Name, message: String) -> Diagnostic {
        Diagnostic::new(Code::UnknownParameter, name.span, message)
            .help(format!("give it a default in the scheme: `{}: 2.5 kg`", name.value))
            .did_you_mean(&name.value, self.values.values().map(|(known, _)| known.as_str()))
    }

    fn get(&self, name: &Name, problems: &mut Vec<Diagnostic>) -> Option<Amount> {
        let found = self.place(name).map(|amount| amount.value);
        if found.is_none() {
            problems.push(self.unknown(name, format!("there is no parameter `{}`", name.value)));
        }
        found
    }

    /// The value of a parameter, with its place.
    fn place(&self, name: &Name) -> Option<&Spanned<Amount>> {
        self.values.get(&fold_name(&name.value)).map(|(_, amount)| amount)
    }

    fn quantity(&self, quantity: &mut Quantity, problems: &mut Vec<Diagnostic>) {
        let Quantity::Parameter(name) = quantity else { return };
        match self.get(name, problems) {
            Some(Amount::Number(number)) => *quantity = Quantity::Number(number),
            Some(_) => problems.push(
                Diagnostic::new(Code::BadRule, name.span, "this must be a count without a unit")
                    .help(format!("write its default as a plain number: `{}: 2`", name.value)),
            ),
            None => {}
        }
    }

    fn change(&self, by: &mut ChangeBy, problems: &mut Vec<Diagnostic>) {
        let ChangeBy::Parameter(plus, name) = by else { return };
        let Some(amount) = self.get(name, problems) else { return };
        let signed = |value: Decimal| if *plus { value } else { -value };
        *by = ChangeBy::Amount(match amount {
            Amount::Mass(mass) => Amount::Mass(MassText { value: signed(mass.value), ..mass }),
            Amount::Percent(percent) => Amount::Percent(signed(percent)),
            Amount::Number(number) => Amount::Number(signed(number)),
        });
    }
}

/// The rules among some lines.
pub fn read(
    lines: &[Node],
    weeks: Option<WeekSpan>,
    parameters: &Parameters,
    of_scheme: bool,
    problems: &mut Vec<Diagnostic>,
) -> Vec<Rule> {
    let mut rules = Vec::new();
    for node in lines {
        let Item::Entry { key, value } = &node.item.value else { continue };
        let Value::Actions(actions) = &value.value else { continue };
        let conditions: Vec<Condition> = match &key.value {
            LineKey::When(conditions) => conditions
                .iter()
                .map(|condition| fill_condition(condition, parameters, problems))
                .collect(),
            LineKey::Otherwise => Vec::new(),
            _ => continue,
        };
        let (action_spans, actions): (Vec<Span>, Vec<Action>) = actions
            .iter()
            .filter_map(|action| Some((action.span, fill_action(action, parameters, problems)?)))
            .unzip();
        rules.push(Rule {
            weeks,
            text: words(&conditions, &actions),
            conditions,
            actions,
            span: key.span,
            whole: node.item.span,
            action_spans,
            follow: parameters.follow.filter(|_| of_scheme),
        });
    }
    rules
}

fn words(conditions: &[Condition], actions: &[Action]) -> String {
    let list = |items: Vec<String>, gap: &str| items.join(gap);
    let when = if conditions.is_empty() {
        "otherwise".to_owned()
    } else {
        list(conditions.iter().map(ToString::to_string).collect(), " and ")
    };
    format!("{when}: {}", list(actions.iter().map(ToString::to_string).collect(), ", "))
}

fn fill_condition(
    condition: &Spanned<Condition>,
    parameters: &Parameters,
    problems: &mut Vec<Diagnostic>,
) -> Condition {
    let mut filled = condition.value.clone();
    match &mut filled {
        Condition::AllRepsMade | Condition::TopOfRange | Condition::AnyRepMissed => {}
        Condition::MissedInARow(n)
        | Condition::Rpe(_, n)
        | Condition::Pain(_, n)
        | Condition::EverySessions(n)
        | Condition::EveryWeeks(n) => parameters.quantity(n, problems),
        Condition::LastSet(_, n, times) => {
            parameters.quantity(n, problems);
            if let Some(times) = times {
                parameters.quantity(times, problems);
            }
        }
    }
    // A number written in the condition itself has been checked where it was read.
    let written = condition.value.out_of_range();
    if let (None, Some(wrong)) = (written, filled.out_of_range()) {
        let mut named = parameters_of(&condition.value).filter_map(|name| parameters.place(name));
        let place = named.next().map_or(condition.span, |amount| amount.span);
        problems.push(
            Diagnostic::new(Code::NumberOutOfRange, place, wrong.message)
                .and(condition.span, "used here"),
        );
    }
    filled
}

/// The parameters that a condition names.
fn parameters_of(condition: &Condition) -> impl Iterator<Item = &Name> {
    let quantities: Vec<&Quantity> = match condition {
        Condition::AllRepsMade | Condition::TopOfRange | Condition::AnyRepMissed => Vec::new(),
        Condition::MissedInARow(n)
        | Condition::Rpe(_, n)
        | Condition::Pain(_, n)
        | Condition::EverySessions(n)
        | Condition::EveryWeeks(n) => vec![n],
        Condition::LastSet(_, n, times) => std::iter::once(n).chain(times.as_ref()).collect(),
    };
    quantities.into_iter().filter_map(|quantity| match quantity {
        Quantity::Parameter(name) => Some(name),
        Quantity::Number(_) => None,
    })
}

/// An action with its parameters filled in, if its amount is in a unit that it can use.
fn fill_action(
    action: &Spanned<Action>,
    parameters: &Parameters,
    problems: &mut Vec<Diagnostic>,
) -> Option<Action> {
    let mut filled = action.value.clone();
    let (by, counts) = match &mut filled {
        Action::Load(by) | Action::Max(by) => (by, false),
        Action::Reps(by) | Action::Sets(by) => (by, true),
        _ => return Some(filled),
    };
    parameters.change(&mut by.value, problems);
    let fits = match &by.value {
        ChangeBy::Amount(Amount::Number(n)) => counts && n.as_whole().is_some(),
        ChangeBy::Amount(_) => !counts,
        // An unknown parameter has been reported.
        ChangeBy::Parameter(..) => return None,
    };
    if !fits {
        let (message, help) = if counts {
            (
                "repetitions and sets can only change by a whole number",
                "write `reps +1` or `sets +1`",
            )
        } else {
            (
                "a load or a max can only change by a mass or a percentage",
                "write `+2.5 kg`, `+5 lb` or `-10%`",
            )
        };
        problems.push(Diagnostic::new(Code::BadRule, action.span, message).help(help));
        return None;
    }
    if let ChangeBy::Amount(Amount::Percent(percent)) = &by.value
        && Exact::from(*percent) <= Exact::whole(-100)
    {
        problems.push(
            Diagnostic::new(
                Code::NumberOutOfRange,
                action.span,
                format!("`{filled}` leaves no load"),
            )
            .help("write a smaller change, such as `-10%`"),
        );
    }
    Some(filled)
}

/// Where a rule changes the load by an amount: an error on a line that is set by effort.
pub fn changes_load(rule: &Rule) -> Option<Span> {
    let load = |action: &Action| {
        matches!(action, Action::Load(_) | Action::LoadUpOne | Action::LoadDownOne)
    };
    rule.actions.iter().any(load).then_some(rule.span)
}
