//! Names on the command line, which may be cut short.

use crate::diagnostics::{no_such, or_list};
use crate::syntax::fold_name;

/// The name that is meant: one written in full, else the only one that begins with what is written.
///
/// # Errors
/// What to say where no name begins like that, or several do.
pub fn by_beginning<'a>(kind: &str, written: &str, known: &[&'a str]) -> Result<&'a str, String> {
    let wanted = fold_name(written);
    if let Some(name) = known.iter().find(|name| fold_name(name) == wanted) {
        return Ok(name);
    }
    let begins = |name: &&&str| !wanted.is_empty() && fold_name(name).starts_with(&wanted);
    let mut found: Vec<&str> = known.iter().filter(begins).copied().collect();
    found.dedup_by_key(|name| fold_name(name));
    match found.as_slice() {
        [] => Err(no_such(kind, written, known)),
        [only] => Ok(only),
        several => Err(format!(
            "`{written}` could be {}: write more of the {kind}'s name",
            or_list(several)
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_beginning_is_enough_where_only_one_name_has_it() {
        let known = ["Wren Tallow", "Wren", "Juno Ash", "Juno Birch"];
        let find = |written| by_beginning("athlete", written, &known);
        assert_eq!(find("wren t"), Ok("Wren Tallow"));
        // A name in full is no beginning of another.
        assert_eq!(find("WREN"), Ok("Wren"));
        assert_eq!(
            find("Jun"),
            Err("`Jun` could be `Juno Ash` or `Juno Birch`: write more of the athlete's name"
                .into())
        );
        assert!(find("").is_err());
        assert!(find("Zoe").is_err());
    }
}
