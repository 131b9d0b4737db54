//! The `advice:` lines of a programme.

use crate::diagnostics::{Code, Diagnostic};
use crate::plan::{AdviceSwitch, Switch};
use crate::source::Sources;
use crate::syntax::ast::{AdviceChange, Item, Name, Node, Value};

/// The decisions about advice, line by line.
pub fn switches(
    lines: &[Node],
    sources: &Sources,
    problems: &mut Vec<Diagnostic>,
) -> Vec<AdviceSwitch> {
    let mut found = Vec::new();
    for node in lines {
        let Item::Entry { value, .. } = &node.item.value else { continue };
        let Value::Advice(text) = &value.value else { continue };
        if let Some(what) = switch(&text.what, problems) {
            let line = Some(sources.locate(node.item.span));
            found.push(AdviceSwitch { what, reason: text.reason.clone(), line });
        }
    }
    found
}

fn switch(change: &AdviceChange, problems: &mut Vec<Diagnostic>) -> Option<Switch> {
    Some(match change {
        AdviceChange::None => Switch::None,
        AdviceChange::Allow { code, on } => {
            Switch::Allow { code: known(code, problems)?, on: values(on) }
        }
        AdviceChange::Bound { code, value, unit, on } => Switch::Bound {
            code: known(code, problems)?,
            value: value.value,
            unit: unit.value.clone(),
            on: values(on),
        },
        AdviceChange::Level { code, severity } => {
            Switch::Level { code: known(code, problems)?, severity: *severity }
        }
    })
}

fn values(names: &[Name]) -> Vec<String> {
    names.iter().map(|name| name.value.clone()).collect()
}

/// The name of a piece of advice, as spelled in the table of codes.
fn known(code: &Name, problems: &mut Vec<Diagnostic>) -> Option<String> {
    let found = Code::from_name(&code.value.to_lowercase());
    if let Some(advice) = found.filter(|code| code.is_advice()) {
        return Some(advice.name().to_owned());
    }
    let problem = match found {
        Some(other) => Diagnostic::new(
            Code::UnknownWord,
            code.span,
            format!("`{}` is not advice, so it cannot be allowed", other.name()),
        )
        .help("fix the problem itself; `setwright explain` lists all advice"),
        None => Diagnostic::new(
            Code::UnknownWord,
            code.span,
            format!("there is no advice `{}`", code.value),
        )
        .did_you_mean(&code.value, Code::ADVICE.iter().map(|advice| advice.name())),
    };
    problems.push(problem);
    None
}
