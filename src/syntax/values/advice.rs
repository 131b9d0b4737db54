//! Values of `advice:` lines.

use crate::diagnostics::Severity;
use crate::syntax::ast::{AdviceChange, AdviceText, Name};
use crate::syntax::build::{Build, P};
use crate::syntax::grammar::Rule;

pub fn advice(build: &mut Build<'_>, pair: P<'_>) -> Option<AdviceText> {
    let line = build.first(pair)?;
    let rule = line.as_rule();
    let parts: Vec<P<'_>> = line.into_inner().collect();
    let remark = parts.iter().find(|part| part.as_rule() == Rule::remark).cloned();
    let reason = remark.and_then(|r| build.first(r)).map(|text| text.as_str().trim().to_owned());
    let code = parts.first().filter(|part| part.as_rule() == Rule::advice_code);
    let code = code.map(|part| build.name(part));
    let what = match (rule, code) {
        (Rule::advice_none, _) => AdviceChange::None,
        (Rule::advice_allow, Some(code)) => AdviceChange::Allow { code, on: on(build, &parts) },
        (Rule::advice_bound, Some(code)) => {
            let value = parts.get(1)?;
            let number = build.decimal(value);
            let value = build.spanned(value, number);
            let unit = build.name(parts.get(2)?);
            AdviceChange::Bound { code, value, unit, on: on(build, &parts) }
        }
        (Rule::advice_level, Some(code)) => {
            let is_warning = parts.get(1)?.as_rule() == Rule::advice_warning;
            let severity = if is_warning { Severity::Warning } else { Severity::Info };
            AdviceChange::Level { code, severity }
        }
        _ => return None,
    };
    Some(AdviceText { what, reason })
}

/// The names after `on`.
fn on(build: &mut Build<'_>, parts: &[P<'_>]) -> Vec<Name> {
    let names = parts.iter().filter(|part| part.as_rule() == Rule::advice_on);
    names.map(|part| build.name(part)).collect()
}
